package source

// Sources of circuits: pumps side by side, suction, valves, measured flows.
var (
	NPSHMargin = Source{
		Key:      "ansi-hi-9.6.1",
		Citation: "ANSI/HI 9.6.1, Rotodynamic pumps — Guideline for NPSH margin",
		Status:   FromMemory,
	}
	NPSHDefinition = Source{
		Key:      "npsh",
		Citation: "net positive suction head: total head at the pump's inlet over the pressure at which water boils, by definition",
		Status:   Derived,
	}
	ValveCoefficient = Source{
		Key:      "iec-60534-kv",
		Citation: "IEC 60534-1, Industrial-process control valves: flow coefficient Kv, m³/h of water at 1 bar",
		Status:   FromMemory,
	}
	SlowWetRotor = Source{
		Key:      "slow-wet-rotor",
		Citation: "small wet-rotor motors slip and lose more below some 0.6 of their speed, so that the affinity laws promise too much",
		Status:   FromMemory,
	}
	EnergyRoundLoop = Source{
		Key:      "energy-round-loop",
		Citation: "heads lost on the way from one water surface to another add up to the pump's head less the lift",
		Status:   Derived,
	}
	Quadrature = Source{
		Key:      "gum-2008",
		Citation: "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
		Locator:  "clause 5.1.2, independent inputs",
		Status:   FromMemory,
	}
	SquareLaw = Source{
		Key:      "square-law",
		Citation: "turbulent loss goes with the square of velocity, whatever makes it",
		Status:   Derived,
	}
	EnergyPrice = Source{
		Key:      "energy-cost",
		Citation: "power times hours times price",
		Status:   Derived,
	}
)
