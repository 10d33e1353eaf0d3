package csvcatalogue

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Reference: scipy.constants, which has the exact definitions of the units. One of each other unit is worth the same here and
// there, to the twelve digits that are kept of a number; and the script knows every unit that a heading may have.
func TestUnitsMeetScipy(t *testing.T) {
	out, err := exec.Command("/usr/bin/python3", "../../testdata/crosscheck/units.py").Output()
	var failed *exec.ExitError
	if os.Getenv("PONDWRIGHT_CROSSCHECK") != "required" && (errors.Is(err, os.ErrNotExist) || errors.As(err, &failed) && failed.ExitCode() == 3) {
		t.Skip("there is no python3 with scipy (Debian: python3-scipy)")
	}
	require.NoError(t, err)
	var theirs map[string]map[string]float64
	require.NoError(t, json.Unmarshal(out, &theirs))
	for name, others := range theirs {
		names := (column{name: name}).names()[1:]
		assert.Len(t, names, len(others), name)
		for _, n := range names {
			require.Contains(t, others, n.name)
			assert.InEpsilon(t, others[n.name], tidy(n.turn(1)), 1e-11, n.name)
		}
	}
	assert.Len(t, theirs, len(measures()), "every measure is held to scipy")
}
