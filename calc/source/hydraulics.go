package source

// Sources of the hydraulics: water, pipes, pumps, sills.
var (
	Tanaka2001 = Source{
		Key:      "tanaka-2001",
		Citation: "M. Tanaka and others, Recommended table for the density of water between 0 °C and 40 °C, Metrologia 38 (2001) 301–309",
		Status:   FromMemory,
	}
	IAPWSViscosity2008 = Source{
		Key:      "iapws-r12-08",
		Citation: "IAPWS R12-08, Release on the IAPWS formulation 2008 for the viscosity of ordinary water substance",
		Status:   FromMemory,
	}
	IAPWSSaturation1992 = Source{
		Key:      "iapws-sr1-86",
		Citation: "IAPWS SR1-86(1992), Supplementary release on saturation properties of ordinary water substance",
		Status:   FromMemory,
	}
	DarcyWeisbach = Source{
		Key:      "darcy-weisbach",
		Citation: "Darcy–Weisbach equation, in every text on pipe flow",
		Status:   Derived,
	}
	Colebrook1939 = Source{
		Key:      "colebrook-1939",
		Citation: "C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers 11 (1939) 133–156",
		Status:   SecondHand,
	}
	Darby2001 = Source{
		Key:      "darby-2001",
		Citation: "R. Darby, Chemical Engineering Fluid Mechanics, 2nd ed., Dekker 2001, as carried by the python fluids library",
		Status:   SecondHand,
	}
	BordaCarnot = Source{
		Key:      "borda-carnot",
		Citation: "Borda–Carnot loss of a sudden enlargement, momentum and energy across it",
		Status:   Derived,
	}
	FlowOfFluids = Source{
		Key:      "tp-410",
		Citation: "Flow of Fluids through Valves, Fittings and Pipe, Technical Paper 410, 2009, as carried by the python fluids library",
		Status:   SecondHand,
	}
	HawthorneVonHelms1963 = Source{
		Key: "hawthorne-von-helms-1963",
		Citation: "R. C. Hawthorne and H. C. von Helms, Fluid expansion theory computes flow in corrugated hose, " +
			"Product Engineering, 10 June 1963, 98–100, for metal hose",
		Status: SecondHand,
	}
	EPAPipeRoughness = Source{
		Key:      "epa-network-model",
		Citation: "L. A. Rossman and others, user manual of the US EPA pipe network model, 2020, ch. 3",
		Status:   Published,
	}
	FritschButland1984 = Source{
		Key: "fritsch-butland-1984",
		Citation: "F. N. Fritsch and J. Butland, A method for constructing local monotone piecewise cubic interpolants, " +
			"SIAM Journal on Scientific and Statistical Computing 5 (1984) 300–304",
		Status: FromMemory,
	}
	AffinityLaws = Source{
		Key:      "affinity-laws",
		Citation: "Affinity laws of rotodynamic pumps, from dynamic similarity",
		Status:   Derived,
	}
	ISO9906 = Source{
		Key:      "iso-9906-2012",
		Citation: "ISO 9906:2012, Rotodynamic pumps — Hydraulic performance acceptance tests",
		Status:   FromMemory,
	}
	EN806 = Source{
		Key:      "en-806-3",
		Citation: "EN 806-3:2006, Installations conveying water for human consumption — Pipe sizing",
		Locator:  "clause 4.4",
		Status:   Published,
	}
	CirculatorReference = Source{
		Key:      "eu-622-2012",
		Citation: "Regulation (EC) 641/2009 as amended by (EU) 622/2012, reference power of small circulators",
		Locator:  "annex II",
		Status:   FromMemory,
	}
	PotentialEnergy = Source{
		Key:      "potential-energy",
		Citation: "work done on water raised, ρ g Q H",
		Status:   Derived,
	}
	CriticalFlow = Source{
		Key:      "critical-flow",
		Citation: "critical flow over a broad crest, q = (2/3)^1.5 √g H^1.5, from the energy of open-channel flow",
		Status:   Derived,
	}
	HooperTwoK1981 = Source{
		Key: "hooper-1981",
		Citation: "W. B. Hooper, The 2-K method predicts head losses in pipe fittings, Chemical Engineering, 24 August 1981, 96–100, " +
			"as carried by the python fluids library",
		Status: SecondHand,
	}
	RennelsHudson2012 = Source{
		Key:      "rennels-hudson-2012",
		Citation: "D. C. Rennels and H. M. Hudson, Pipe Flow, Wiley 2012, as carried by the python fluids library",
		Status:   SecondHand,
	}
	SwameeSharma2008 = Source{
		Key: "swamee-sharma-2008",
		Citation: "P. K. Swamee and A. K. Sharma, Design of Water Supply Pipe Networks, Wiley 2008, as carried by the python " +
			"fluids library",
		Status: SecondHand,
	}
	FlowCoefficientKv = Source{
		Key:      "iec-60534-2-1",
		Citation: "IEC 60534-2-1, Industrial-process control valves — Flow capacity, as carried by the python fluids library",
		Status:   SecondHand,
	}
	HoseBores = Source{
		Key: "iso-1307-2006",
		Citation: "ISO 1307:2006, Rubber and plastics hoses — Hose sizes, minimum and maximum inside diameters, hoses built " +
			"without a mandrel, as reproduced in a hose data sheet",
		Locator: "table 1, type C",
		Status:  SecondHand,
	}
	PressurePipeWalls = Source{
		Key:      "iso-1452-2",
		Citation: "ISO 1452-2, Plastics piping systems for water supply, pipes of unplasticized poly(vinyl chloride)",
		Status:   FromMemory,
	}
	WastePipeWalls = Source{
		Key:      "en-1329-1",
		Citation: "EN 1329-1, Plastics piping systems for soil and waste discharge within the building structure, PVC-U",
		Status:   FromMemory,
	}
	DrainPipeWalls = Source{
		Key: "en-1401-1",
		Citation: "EN 1401-1, Plastics piping systems for non-pressure underground drainage and sewerage, PVC-U, as reproduced in " +
			"a data sheet; greatest wall from memory",
		Status: SecondHand,
	}
	Schedule40Walls = Source{
		Key:      "astm-d1785",
		Citation: "ASTM D1785, Poly(vinyl chloride) plastic pipe, schedules 40, 80 and 120, as reproduced in a data sheet",
		Status:   SecondHand,
	}
	WallingfordRoughness = Source{
		Key: "hr-wallingford",
		Citation: "HR Wallingford, Tables for the Hydraulic Design of Pipes: uPVC with cemented joints 0.03 mm, with ring seals " +
			"0.06 mm, as reproduced",
		Status: SecondHand,
	}
	SlimedRoughness = Source{
		Key:      "hr-wallingford-slimed",
		Citation: "HR Wallingford, Tables for the Hydraulic Design of Pipes, slimed plastic 0.06 to 0.6 mm",
		Status:   FromMemory,
	}
	BondedRoughness = Source{
		Key:      "bonded-plastic",
		Citation: "design values of German and British practice for jointed plastic pipe, 0.003 to 0.05 mm",
		Status:   FromMemory,
	}
	HoseRoughness = Source{
		Key:      "hose-roughness",
		Citation: "no measurement of spiral-reinforced hose was found; 0.005 to 0.03 mm for a smooth, slightly wavy bore",
		Status:   Assumed,
	}
	ISO1438 = Source{
		Key: "iso-1438",
		Citation: "ISO 1438, Flow measurement using thin-plate weirs; coefficients of the rectangular weir confirmed in EPA/600/R-17/111, " +
			"table 6-2",
		Status: FromMemory,
	}
	Rehbock1929 = Source{
		Key:      "rehbock",
		Citation: "Th. Rehbock's formula for the full-width thin-plate weir, as in ISO 1438",
		Status:   FromMemory,
	}
	ISO3846 = Source{
		Key:      "iso-3846",
		Citation: "ISO 3846, Flow measurement with rectangular broad-crested weirs, discharge coefficient 0.864 of the square edge",
		Status:   FromMemory,
	}
	ISO4374 = Source{
		Key:      "iso-4374",
		Citation: "ISO 4374, Flow measurement with round-nose horizontal crest weirs, displacement thickness of the boundary layer",
		Status:   FromMemory,
	}
	BraterKing1976 = Source{
		Key:      "brater-king-1976",
		Citation: "E. F. Brater and H. W. King, Handbook of Hydraulics, 6th ed., 1976, as printed in EPA/600/R-17/111 (L. A. Rossman 2017)",
		Locator:  "table 6-3",
		Status:   Published,
	}
	Rouse1936 = Source{
		Key:      "rouse-1936",
		Citation: "H. Rouse, Discharge characteristics of the free overfall, Civil Engineering 6 (1936) 257–260",
		Status:   FromMemory,
	}
	FreeFall = Source{
		Key:      "free-fall",
		Citation: "free fall of water that leaves level, with no drag and no break-up; thickness by continuity",
		Status:   Derived,
	}
	Manning1891 = Source{
		Key:      "manning",
		Citation: "R. Manning, On the flow of water in open channels and pipes, 1891, in every text on open-channel flow",
		Status:   Derived,
	}
	Chow1959 = Source{
		Key:      "chow-1959",
		Citation: "V. T. Chow, Open-Channel Hydraulics, McGraw-Hill 1959, table 5-6, as carried by the python fluids library",
		Status:   SecondHand,
	}
	ShallowStones = Source{
		Key:      "shallow-stones",
		Citation: "laws of flow over stones as large as the water is deep, after J. C. Bathurst: n of 0.06 to 0.15",
		Status:   FromMemory,
	}
	ColebrookOpen = Source{
		Key:      "colebrook-white-open",
		Citation: "Colebrook–White law with four hydraulic radii for the bore",
		Status:   Derived,
	}
	DropInlet = Source{
		Key:      "drop-inlet",
		Citation: "upright open pipe as a round weir, then as an orifice, coefficient 0.60 in both",
		Status:   FromMemory,
	}
	FroudeNumber = Source{
		Key:      "froude",
		Citation: "ratio of velocity to that of a long wave in the same section",
		Status:   Derived,
	}
	Torricelli = Source{
		Key:      "torricelli",
		Citation: "Torricelli's law: head turned to velocity, with the losses on the way",
		Status:   Derived,
	}
	BareLiner = Source{
		Key:      "bare-liner",
		Citation: "bare liner taken as smooth plastic, n of 0.011 to 0.015 in the table of the US EPA network model; least value assumed",
		Status:   Assumed,
	}
	AquaculturePipes = Source{
		Key:      "timmons-ebeling",
		Citation: "M. B. Timmons and J. M. Ebeling, Recirculating Aquaculture, 0.3 m/s to keep solids moving",
		Status:   FromMemory,
	}
)
