package ripening_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
)

func TestForecastIsASpan(t *testing.T) {
	s, err := ripening.Forecast(scenarios(t)["A_22C_unseeded"])
	require.NoError(t, err)
	assert.Less(t, s.Early.RipeAt, s.Expected.RipeAt)
	assert.Less(t, s.Expected.RipeAt, s.Late.RipeAt)
}

// The first stocking is largest: its own peaks stay below the limits, those of one per cent more do not.
func TestFirstStockingIsTheLargest(t *testing.T) {
	in := scenarios(t)["C_22C_seeded_waterchange"]
	ammonia, nitrite := unit.MilligramsPerLitre(0.5), unit.MilligramsPerLitre(0.3)
	load, err := ripening.FirstStocking(in, ammonia, nitrite)
	require.NoError(t, err)
	assert.Positive(t, load)
	peaks := func(load unit.MassRate) ripening.Result {
		in.Load = []ripening.LoadStep{{TAN: load}}
		r, err := ripening.Run(nil, in)
		require.NoError(t, err)
		return r
	}
	kept, passed := peaks(load), peaks(1.01*load)
	assert.True(t, kept.TAN.Value <= ammonia && kept.Nitrite.Value <= nitrite)
	assert.False(t, passed.TAN.Value <= ammonia && passed.Nitrite.Value <= nitrite)
	_, err = ripening.FirstStocking(in, 0, nitrite)
	assert.Error(t, err)
}
