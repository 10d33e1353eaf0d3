package defect_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// Pump curves of public models of water networks. They are of town pumps, beyond what is sold for gardens, and end before free flow:
// that is said of them, and nothing else. No shape is doubted, no unit, no axis.
//
// Sources: Net3, an example network of the US EPA's pipe network model (public domain), as kept by the project
// OpenWaterAnalytics/EPANET, example-networks/Net3.inp, read. Anytown, the benchmark network of Walski and others 1987, its five
// points as a public copy quotes them in m³/h and m.
func TestCurvesOfPublicNetworksAreNotDoubted(t *testing.T) {
	gpm := func(q float64) unit.Flow { return unit.USGallonsPerMinute(q) }
	feet := func(h float64) unit.Head { return unit.Head(unit.Feet(h).Metres()) }
	for name, test := range map[string]struct {
		points []pump.Point
		codes  []string
	}{
		"Net3, lake source": {[]pump.Point{{Flow: gpm(0), Head: feet(104)}, {Flow: gpm(2000), Head: feet(92)}, {Flow: gpm(4000), Head: feet(63)}},
			[]string{defect.TooFewPoints, defect.FreeFlowMissing}},
		"Net3, river source": {[]pump.Point{{Flow: gpm(0), Head: feet(200)}, {Flow: gpm(8000), Head: feet(138)}, {Flow: gpm(14000), Head: feet(86)}},
			[]string{defect.TooFewPoints, defect.FreeFlowMissing, defect.NumberOutOfBounds}},
		"Anytown": {[]pump.Point{
			{Flow: 0, Head: 91.44}, {Flow: unit.CubicMetresPerHour(454.2494), Head: 89.0016}, {Flow: unit.CubicMetresPerHour(908.4988), Head: 82.296},
			{Flow: unit.CubicMetresPerHour(1362.7482), Head: 70.104}, {Flow: unit.CubicMetresPerHour(1816.9976), Head: 55.1688},
		}, []string{defect.FreeFlowMissing, defect.NumberOutOfBounds}},
	} {
		t.Run(name, func(t *testing.T) {
			var found []string
			for _, d := range defect.Alone(defect.Curve{Number: name, Points: test.points}) {
				found = append(found, d.Code)
			}
			assert.ElementsMatch(t, test.codes, found)
		})
	}
}
