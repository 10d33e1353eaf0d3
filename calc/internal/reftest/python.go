package reftest

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// python is the system's own, which has the libraries that Debian packages.
const python = "/usr/bin/python3"

// missing is the exit code of a script that cannot import its library.
const missing = 3

// Python runs testdata/crosscheck/script with that standard input and gives its output. Where Python or a library is missing
// the test is skipped, unless PONDWRIGHT_CROSSCHECK=required says that this machine has them.
func Python(t testing.TB, script string, input []byte) []byte {
	t.Helper()
	cmd := exec.Command(python, "-W", "ignore", filepath.Join(root(t), "testdata", "crosscheck", script))
	var complaint bytes.Buffer
	cmd.Stdin, cmd.Stderr = bytes.NewReader(input), &complaint
	out, err := cmd.Output()
	var failed *exec.ExitError
	if os.Getenv("PONDWRIGHT_CROSSCHECK") != "required" &&
		(errors.Is(err, os.ErrNotExist) || errors.As(err, &failed) && failed.ExitCode() == missing) {
		t.Skipf("%s cannot run here: %s", script, bytes.TrimSpace(complaint.Bytes()))
	}
	require.NoError(t, err, "%s: %s", script, complaint.String())
	return out
}
