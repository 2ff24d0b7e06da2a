"""Constants of nature and of convention; none can be built without a source."""

from macros.calculations.formula import Constant

FARADAY = Constant(96485.33212331002, "F", "C/mol", "Faraday constant", "codata-2018")
GAS_CONSTANT = Constant(8.31446261815324, "R", "J/(mol K)", "molar gas constant", "codata-2018")
MOLAR_MASS_HYDROGEN = Constant(2.01588e-3, "M_H2", "kg/mol", "molar mass of hydrogen", "leachman-2009")
MOLAR_MASS_OXYGEN = Constant(31.9988e-3, "M_O2", "kg/mol", "molar mass of oxygen", "iupac-weights")
MOLAR_MASS_WATER = Constant(18.01528e-3, "M_H2O", "kg/mol", "molar mass of water", "iupac-weights")
NORMAL_MOLAR_VOLUME = Constant(22.41396954e-3, "V_N", "m3/mol", "molar volume at normal conditions", "codata-2018")
STANDARD_ATMOSPHERE = Constant(101325.0, "p_0", "Pa", "standard atmosphere", "cgpm-1954")
LOWER_HEATING_VALUE = Constant(119.96e6, "H_l", "J/kg", "lower heating value of hydrogen", "doe-record-9013")
HIGHER_HEATING_VALUE = Constant(141.79e6, "H_h", "J/kg", "higher heating value of hydrogen", "codata-key-values")
PI = Constant(3.141592653589793, "π", "1", "ratio of a circle's circumference to its diameter", "by-definition")
STANDARD_GRAVITY = Constant(9.80665, "g", "m/s2", "standard acceleration of free fall", "cgpm-1901")
MOLAR_MASS_AIR = Constant(28.96546e-3, "M_air", "kg/mol", "molar mass of dry air", "cipm-2007-air")
MOLAR_MASS_NITROGEN = Constant(28.0134e-3, "M_N2", "kg/mol", "molar mass of nitrogen", "iupac-weights")
