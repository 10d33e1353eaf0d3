package source

// Sources of the order of work, the load list and the hand-over.
var (
	CriticalPath = Source{
		Key:      "kelley-walker-1959",
		Citation: "Kelley & Walker 1959, Critical-path planning and scheduling, Proc. Eastern Joint Computer Conference",
		Status:   FromMemory,
	}
	ConductorResistance = Source{
		Key:      "iec-60228",
		Citation: "IEC 60228, conductors of insulated cables, table A.2: greatest resistance at 20 °C of plain stranded copper, as reprinted in cable makers' data",
		Status:   SecondHand,
	}
	VoltDropTable = Source{
		Key:      "bs-7671-appendix-4",
		Citation: "BS 7671, appendix 4, voltage drop of two-core copper cable with 70 °C insulation, single-phase, as quoted in teaching material",
		Status:   SecondHand,
	}
	CopperHeat = Source{
		Key:      "iec-60228-annex-b",
		Citation: "IEC 60228, annex B: 0.00393 for each degree of annealed copper at 20 °C",
		Status:   FromMemory,
	}
	Circuits = Source{
		Key: "ac-power", Citation: "active power is voltage times current times power factor; the drop is twice the line's resistance times its current", Status: Derived,
	}
	VoltDropLimit = Source{
		Key:      "bs-7671-525",
		Citation: "BS 7671 regulation 525 and table 4Ab (appendix 4 or 12, by edition): 3 % for lighting and 5 % for other uses, as quoted in teaching material; the NEC advises 3 % and 5 %",
		Status:   SecondHand,
	}
	WiringUK = Source{
		Key:      "bs-7671",
		Citation: "BS 7671 regulation 411.3.3 (30 mA) and section 702; Part P in England. Whether section 702 holds for a pond nobody bathes in is disputed",
		Status:   FromMemory,
	}
	WiringEurope = Source{
		Key:      "hd-60364-7-702",
		Citation: "IEC 60364-7-702 and its national forms, such as DIN VDE 0100-702 and NF C 15-100 part 7-702",
		Status:   FromMemory,
	}
	WiringAmerica = Source{
		Key:      "nfpa-70-680",
		Citation: "NFPA 70 (NEC) articles 680 and 682 and section 210.8; CSA C22.1 section 68",
		Status:   FromMemory,
	}
	WiringAustralia = Source{
		Key: "as-nzs-3000-6", Citation: "AS/NZS 3000 section 6", Status: FromMemory,
	}
	AtomicWeights = Source{
		Key:      "iupac-atomic-weights",
		Citation: "IUPAC conventional atomic weights: H 1.008, N 14.007, O 15.999, Na 22.990, S 32.06, Cl 35.45",
		Status:   FromMemory,
	}
	ConfinedSpaces = Source{
		Key:      "confined-spaces",
		Citation: "UK Confined Spaces Regulations 1997; US 29 CFR 1926 subparts P and AA",
		Status:   FromMemory,
	}
	DischargeRules = Source{
		Key:      "discharge-permits",
		Citation: "guidance on permits for discharges to surface water and groundwater (England), and on swimming and exercise pools (NetRegs): excerpts read",
		Status:   SecondHand,
	}
	FillRules = Source{
		Key:      "water-fittings",
		Citation: "UK water-fittings regulations, as quoted in guides: an air gap or a double check valve at every hose, no submerged end",
		Status:   SecondHand,
	}
	PondDrowning = Source{
		Key:      "pond-safety-charity",
		Citation: "a safety charity's page on garden ponds: a rigid grille, a fence of at least 1.1 m with locked access, or fill it (excerpt read)",
		Status:   SecondHand,
	}
	Reservoirs = Source{
		Key: "reservoirs-act", Citation: "Reservoirs Act 1975 section A1 (excerpt read): 10,000 m³ above natural ground", Status: SecondHand,
	}
)
