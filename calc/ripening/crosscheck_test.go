package ripening_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
)

// Load in steps, sour water and little room, against scipy's DOP853 at 1e-11, to 1e-6 each day.
func TestStagedStockingAgainstScipy(t *testing.T) {
	in := ripening.Input{
		Pond: 10, Temperature: 18, PH: 7.0, Oxygen: unit.MilligramsPerLitre(8),
		Exchange: unit.PerDay(0.01), TapNitrate: unit.MilligramsPerLitre(5),
		Start: ripening.SeededFilter(), Room: unit.MilligramsPerLitre(1.2), Until: unit.Days(60),
		Load: []ripening.LoadStep{
			{TAN: unit.GramsPerDay(1)}, {From: unit.Days(14), TAN: unit.GramsPerDay(2)}, {From: unit.Days(28), TAN: unit.GramsPerDay(3)},
		},
	}
	in.Start.Nitrate = in.TapNitrate
	r, err := ripening.Run(nil, in)
	require.NoError(t, err)

	lines := bytes.Split(bytes.TrimSpace(reftest.Python(t, "ripening.py", nil)), []byte("\n"))
	require.Len(t, lines, 61)
	for i, line := range lines {
		var day int
		var want [5]float64
		_, err := fmt.Sscan(string(line), &day, &want[0], &want[1], &want[2], &want[3], &want[4])
		require.NoError(t, err)
		require.Equal(t, i, day)
		s := r.Days[day]
		for j, c := range []unit.Concentration{s.TAN, s.Nitrite, s.Nitrate, s.AmmoniaOxidisers, s.NitriteOxidisers} {
			assert.InDelta(t, want[j], c.MilligramsPerLitre(), 1e-6, "day %d, component %d", day, j)
		}
	}
}
