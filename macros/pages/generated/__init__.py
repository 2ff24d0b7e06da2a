"""Pages that nobody writes: of a plant its overview, drawing, inputs and workings; of the handbook its tables."""
