package water_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/water"
)

// The Gibbs SeaWater toolbox fits the same measurements of Benson & Krause with another polynomial (Garcia & Gordon
// 1992). Fresh, the two stay within one and a half units of the third decimal, the last that tables print; with salt
// within 0.05 %, half of what the measurements themselves are good for (0.1 %, from memory).
func TestOxygenSaturationAgainstGibbsSeaWater(t *testing.T) {
	checked := 0
	for _, line := range bytes.Split(bytes.TrimSpace(reftest.Python(t, "oxygen.py", nil)), []byte("\n")) {
		var celsius, salt, want float64
		_, err := fmt.Sscan(string(line), &celsius, &salt, &want)
		require.NoError(t, err)
		got := saturation(celsius, salt, water.Atmosphere)
		if salt == 0 {
			assert.InDelta(t, want, got, 0.0015, "%g °C", celsius)
		} else {
			assert.InEpsilon(t, want, got, 5e-4, "%g °C, %g g/kg", celsius, salt)
		}
		checked++
	}
	assert.Equal(t, 5*17, checked)
}
