// Package csvcatalogue makes a catalogue of a folder of CSV files, so that a merchant needs a spreadsheet and no programmer.
//
//	catalogue.csv    title, currency, notice: one row
//	pumps.csv        one row a pump
//	pump_curves.csv  one row a point of a pump's curve
//	filters.csv, lamp_units.csv, hoses.csv, liners.csv, fittings.csv, media.csv, fish_species.csv
//
// An xlsx workbook with sheets of these names (without ".csv") does as well, and is read by the same rules.
//
// The columns are the fields of pondwright.equipment.v1, by their names with the unit in them, so that a new field of the
// contract is a new column here. A field that a message may leave unset is a column that may be left empty, or out. The
// words of an enum are written short and in lower case: "foam" for FILTER_MEDIUM_FOAM.
//
// A column may be in another unit by the name it has: flow_us_gal_per_min, or "Flow (US gal/min)". Guide lists every column.
//
// Reading is strict: nothing is skipped, guessed or taken as zero. What is wrong with a file as a whole (an unknown or missing
// column, broken quoting) refuses the catalogue, with every such problem named at once. What is wrong with a row leaves out
// that item alone, as a *contract.Rejected that names file, row and column; the others load.
package csvcatalogue
