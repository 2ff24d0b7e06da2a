"""
Calculations: pure functions of SI floats, a module a subject; they know nothing of plants.

`formula` makes an expression show itself, `contract` holds what every calculation keeps to,
`constants`, `sources` and `facts` say where numbers come from, `evidence` how we know.
"""
