package water_test

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/water"
)

// noToolbox is the status the script leaves with where a library it needs is not installed.
const noToolbox = 3

// The Gibbs SeaWater toolbox fits the same measurements of Benson & Krause with another polynomial (Garcia & Gordon
// 1992). Fresh, the two stay within one and a half units of the third decimal, the last that tables print; with salt
// within 0.05 %, half of what the measurements themselves are good for (0.1 %, from memory).
func TestOxygenSaturationAgainstGibbsSeaWater(t *testing.T) {
	checked := 0
	for _, line := range bytes.Split(bytes.TrimSpace(crosscheck(t, "oxygen.py")), []byte("\n")) {
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

// crosscheck runs a script of testdata/crosscheck with the system's Python, or skips the test where that or a library is
// missing.
func crosscheck(t *testing.T, script string) []byte {
	t.Helper()
	out, err := exec.Command("/usr/bin/python3", filepath.Join("..", "..", "testdata", "crosscheck", script)).Output()
	var exit *exec.ExitError
	if errors.Is(err, fs.ErrNotExist) || errors.As(err, &exit) && exit.ExitCode() == noToolbox {
		t.Skip("needs python3 with gsw (Debian: python3-gsw)")
	}
	require.NoError(t, err)
	return out
}
