package tree_test

import (
	"fmt"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// A fall 1.5 m up with a low return beside it that nothing throttles: the return takes nearly all. Reference: case B07 of
// branched_cases.csv, scipy 1.10.1 with python3-fluids 1.0.22: 1.756 and 11.400 m³/h.
func ExampleNetwork_Assess() {
	hose := func(name string, length, bore, k float64) tree.Hose {
		run, _ := pipe.NewRun(pipe.Spec{
			Length: unit.Metres(length), Bore: unit.Millimetres(bore), Wall: pipe.Smooth, Roughness: unit.Millimetres(0.0015), OtherK: k,
		})
		return tree.Hose{Name: name, Run: run}
	}
	var points []pump.Point
	for i, head := range []float64{5.5, 5.2, 4.65, 3.8, 2.6, 0.95} {
		points = append(points, pump.Point{Flow: unit.CubicMetresPerHour(3 * float64(i)), Head: unit.MetresOfWater(head)})
	}
	curve, _ := pump.NewCurve(append(points, pump.Point{Flow: unit.CubicMetresPerHour(16.5)}), 0)

	network, _ := tree.New(tree.Circuit{
		Intake: tree.Branch{Name: "intake", Parts: []tree.Part{hose("suction hose", 1, 57.5, 1.5)}, End: tree.Surface{}},
		Pump:   []tree.Part{tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve)}},
		Delivery: tree.Branch{Name: "delivery", Parts: []tree.Part{hose("common hose", 3, 57.5, 2)}, End: tree.Fork{
			{Name: "fall", Parts: []tree.Part{hose("rising hose", 6, 50, 4)}, End: tree.Outlet{Level: 1.5}},
			{Name: "return", Parts: []tree.Part{hose("low hose", 3, 40, 3)}, End: tree.Outlet{Level: 0.1}},
		}},
	})
	solution, findings := network.Assess(nil, tree.Conditions{Water: water.At(nil, 15)})
	for _, name := range []string{"fall", "return"} {
		b, _ := solution.Branch(name)
		fmt.Printf("%s %.2f m³/h\n", name, b.Flow.CubicMetresPerHour())
	}
	for _, f := range findings {
		fmt.Println(f.Severity, f.Code, f.Subject)
	}
	// Output:
	// fall 1.76 m³/h
	// return 11.40 m³/h
	// caution FAST_IN_HOSE low hose
}
