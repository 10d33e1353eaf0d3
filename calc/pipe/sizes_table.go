package pipe

import "example.com/pondwright/calc/source"

// sizes is the table. A hose of 32 mm is the standard's 31.5.
//
// Source: hose, ISO 1307, and EN 1401 and ASTM D1785, as reproduced; ISO 1452-2 and EN 1329-1, from memory.
var sizes = []Size{
	hose("hose-20", "smooth hose 20 mm", 20, 19.3, 20.9, Smooth),
	hose("hose-25", "smooth hose 25 mm", 25, 24.2, 26.6, Smooth),
	hose("hose-32", "smooth hose 32 mm", 31.5, 30.2, 33.4, Smooth),
	hose("hose-40", "smooth hose 40 mm", 40, 38.5, 41.7, Smooth),
	hose("hose-50", "smooth hose 50 mm", 50, 48.1, 51.6, Smooth),

	hose("ribbed-20", "corrugated hose 20 mm", 20, 19.3, 20.9, Corrugated),
	hose("ribbed-25", "corrugated hose 25 mm", 25, 24.2, 26.6, Corrugated),
	hose("ribbed-32", "corrugated hose 32 mm", 31.5, 30.2, 33.4, Corrugated),
	hose("ribbed-40", "corrugated hose 40 mm", 40, 38.5, 41.7, Corrugated),
	hose("ribbed-50", "corrugated hose 50 mm", 50, 48.1, 51.6, Corrugated),

	pressure("32x1.6", 32, 1.6),
	pressure("32x2.4", 32, 2.4),
	pressure("50x2.4", 50, 2.4),
	pressure("50x3.7", 50, 3.7),
	pressure("63x3.0", 63, 3.0),
	pressure("63x4.7", 63, 4.7),
	pressure("110x4.2", 110, 4.2),
	pressure("110x6.6", 110, 6.6),

	waste("32x3.0", 32, 3.0),
	waste("50x3.0", 50, 3.0),
	waste("63x3.0", 63, 3.0),
	waste("110x3.2", 110, 3.2),

	drain("110x3.2", 110, 3.2),
	drain("160x4.0", 160, 4.0),
	drain("160x4.7", 160, 4.7),

	schedule40("0.5", 21.34, 2.77, 3.28),
	schedule40("0.75", 26.67, 2.87, 3.38),
	schedule40("1", 33.40, 3.38, 3.89),
	schedule40("1.25", 42.16, 3.56, 4.07),
	schedule40("1.5", 48.26, 3.68, 4.19),
	schedule40("2", 60.32, 3.91, 4.42),
	schedule40("3", 88.90, 5.49, 6.15),
	schedule40("4", 114.30, 6.02, 6.73),
}

// pressure, waste and drain name pipe by its outside diameter and wall in millimetres.
func pressure(size string, outside, wall float64) Size {
	return metric("pressure-"+size, "solvent-weld pressure pipe "+size+" mm", outside, wall, bondedWall,
		source.PressurePipeWalls, source.BondedRoughness)
}

func waste(size string, outside, wall float64) Size {
	return metric("waste-"+size, "solvent-weld waste pipe "+size+" mm", outside, wall, bondedWall,
		source.WastePipeWalls, source.BondedRoughness)
}

func drain(size string, outside, wall float64) Size {
	return metric("drain-"+size, "drain pipe with ring seals "+size+" mm", outside, wall, ringedWall,
		source.DrainPipeWalls, source.WallingfordRoughness)
}
