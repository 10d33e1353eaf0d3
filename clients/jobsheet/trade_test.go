package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

// What somebody in the trade would expect of the first kit for each demo brief, and why. The figures are common practice, no
// source, and wide; they are not what the engine calculates with, but for the sheets over a sill.
func TestDemoBriefsAreAnsweredReasonably(t *testing.T) {
	for name, want := range map[string]struct {
		why                  string
		flow, power, bore    [2]float64 // L/h with the filter due, W of the pump, mm
		filter, lamp, single bool
	}{
		"patio": {"a 20 cm lip clings below some 60 L/h a centimetre, so that a 1,000 L/h pump is too small; the smallest pump beyond that, " +
			"on 25 mm hose, with a small box filter and a 9 W lamp is what goes over the counter", [2]float64{1200, 2400}, [2]float64{5, 40}, [2]float64{19, 32}, true, true, true},
		"wildlife": {"a thin sheet over 35 cm wants two to four thousand litres an hour; 9 m of hose for that is 32 to 40 mm; no fish, so nothing else",
			[2]float64{2100, 4200}, [2]float64{15, 80}, [2]float64{30, 40}, false, false, true},
		"koi": {"koi water goes round every two hours, 14,400 L/h of 28,800 L; with hardly any lift an efficient pump does that with some 100 W; one pipe that keeps so much near 1 m/s is 75 to 110 mm, for in 63 mm it would run at almost 2 m/s",
			[2]float64{14400, 25000}, [2]float64{50, 250}, [2]float64{65, 115}, true, true, true},
		"cascade": {"a full sheet over 50 cm wants 6,000 to 10,000 L/h, lifted 1.15 m through a pressure filter: some 100 W and a 50 mm hose",
			[2]float64{6283, 10000}, [2]float64{60, 200}, [2]float64{40, 55}, true, true, true},
		"school": {"a trickle of 800 L/h on 4 m of small hose is the work of a pump of ten or so watts; without fish it needs no more",
			[2]float64{800, 1200}, [2]float64{5, 30}, [2]float64{15, 26}, false, false, true},
		"estate": {"30 to 50 m³/h lifted 3.4 m, through 58 m of pipe, ask for a dry or sump pump near a kilowatt on 110 to 140 mm pipe; carp of a lake need no filter",
			[2]float64{30000, 50000}, [2]float64{500, 2000}, [2]float64{95, 150}, false, false, true},
	} {
		t.Run(name, func(t *testing.T) {
			var out, errs bytes.Buffer
			code := run(t.Context(), []string{"--json", "../../testdata/briefs/" + name + ".yaml"}, env{
				Out: &out, Err: &errs, Width: 80, Embed: embed, Demo: testdata.Briefs, DemoBrief: testdata.DefaultBrief,
			})
			require.Equal(t, exitFeasible, code, errs.String())
			answer := new(pondwrightv1.SuggestKitsResponse)
			require.NoError(t, protojson.UnmarshalOptions{DiscardUnknown: true}.Unmarshal(out.Bytes(), answer))
			first := answer.GetKits()[0]
			duty := first.GetStates()[len(first.GetStates())-1].GetDuty()
			within := func(what string, x float64, limits [2]float64) {
				assert.GreaterOrEqual(t, x, limits[0], "%s: %s", what, want.why)
				assert.LessOrEqual(t, x, limits[1], "%s: %s", what, want.why)
			}
			within("flow", duty.GetFlowLPerH().GetExpected(), want.flow)
			within("power", duty.GetPowerW(), want.power)
			within("bore", first.GetHose().GetItem().GetHose().GetBoreMm(), want.bore)
			assert.Equal(t, want.filter, first.GetFilter() != nil, want.why)
			assert.Equal(t, want.lamp, first.GetLampUnit() != nil, want.why)
			assert.Equal(t, want.single, first.GetSecondPump() == nil, want.why)
		})
	}
}
