package handover_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/handover"
	"example.com/pondwright/calc/unit"
)

// A bucket of 12 L under 5,000 L/h is full in 8.6 s: 3600 times litres over seconds, the reckoning of the trade.
func ExampleBucketTime() {
	t := handover.BucketTime.Eval(handover.BucketInput{Vessel: unit.Litres(12), Flow: unit.LitresPerHour(5000)})
	fmt.Printf("%.1f s\n", t.Seconds())
	// Output: 8.6 s
}

// What is expected lies within what is let pass, a larger flow fills sooner, and no vessel is full before it can be timed, up to 50,000 L/h.
func TestChecksCanBeMade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flow := rapid.Float64Range(100, 50000).Draw(t, "flow")
		r := handover.Running{
			Flow: unit.LitresPerHour(flow), FlowLow: unit.LitresPerHour(0.85 * flow), FlowHigh: unit.LitresPerHour(1.15 * flow), Power: unit.Watts(100),
			StartDrop: unit.Millimetres(11), StopRise: unit.Millimetres(rapid.Float64Range(1, 60).Draw(t, "rise")), Freeboard: unit.Millimetres(80), Fall: true, Mains: true,
		}
		seen := map[string]bool{}
		for _, c := range handover.Checks(nil, r) {
			assert.False(t, seen[c.ID])
			seen[c.ID] = true
			assert.NotEmpty(t, c.How)
			if c.Expected == nil {
				continue
			}
			assert.LessOrEqual(t, c.Low.Number, c.Expected.Number, c.ID)
			assert.GreaterOrEqual(t, c.High.Number, c.Expected.Number, c.ID)
			if c.ID == "flow_by_vessel" {
				assert.Greater(t, c.Expected.Number, 5.0)
				assert.InEpsilon(t, flow, 3600*map[bool]float64{true: 12, false: 70}[12*3600/flow >= 5]/c.Expected.Number, 1e-9)
			}
		}
		for _, id := range []string{"rim_level", "edge_dry", "flow", "power", "start_drop", "stop_rise", "residual_current", "two_days"} {
			assert.True(t, seen[id], id)
		}
	})
}

func TestTheBookHoldsWhatThereIs(t *testing.T) {
	all := handover.Kept{Fish: true, Filter: true, Lamp: true, Pump: true, Fall: true, Winter: true, Flush: true}
	assert.Greater(t, len(handover.WhatIfs(all)), len(handover.WhatIfs(handover.Kept{})))
	for _, w := range handover.WhatIfs(handover.Kept{}) {
		assert.NotContains(t, w.Happens, "Fish")
		assert.NotContains(t, w.Happens, "pump")
	}
	assert.Len(t, handover.Switches(handover.Kept{}), 1)
	assert.Contains(t, fmt.Sprint(handover.Spares(all)), "mercury")
}
