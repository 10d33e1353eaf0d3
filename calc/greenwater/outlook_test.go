package greenwater_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/unit"
)

// Algae grow faster the warmer and the brighter (Eppley 1972), so the same lamp clears later, if at all. The row for the
// pond's own state is the forecast.
func TestOutlooksWorsenWithWarmthAndSun(t *testing.T) {
	in := pond()
	in.MeanDose *= 2
	all, err := greenwater.Outlooks(in)
	require.NoError(t, err)
	require.Len(t, all, 12)
	for i, o := range all {
		if i%6 > 0 {
			later(t, all[i-1], o)
		}
		if o.FullSun {
			later(t, all[i-6], o)
		}
		if o.Temperature == in.Temperature && o.FullSun == in.FullSun {
			f, err := greenwater.ForecastClearing(nil, in)
			require.NoError(t, err)
			assert.Equal(t, f.Verdict, o.Verdict)
			assert.Equal(t, f.Hopeful.Clearing.Time, *o.Soonest)
		}
	}
	in.Ratio = 1
	_, err = greenwater.Outlooks(in)
	assert.Error(t, err)
}

func later(t *testing.T, a, b greenwater.Outlook) {
	t.Helper()
	assert.GreaterOrEqual(t, a.Verdict, b.Verdict)
	for _, ends := range [][2]*unit.Time{{a.Soonest, b.Soonest}, {a.Latest, b.Latest}} {
		if ends[1] != nil {
			require.NotNil(t, ends[0])
			assert.Less(t, float64(*ends[0]), float64(*ends[1]))
		}
	}
}
