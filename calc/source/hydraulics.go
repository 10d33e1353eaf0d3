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
)
