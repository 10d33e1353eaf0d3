package host

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// Below the host's folder go-plugin makes "plugin-dir" and ten digits for each plugin, and the plugin its socket "plugin" and
// ten digits in there. A socket's path may not be longer than 103 bytes on macOS and 107 on Linux; the plugin that meets
// that limit can only say that it failed to start.
const (
	longestSocketPath = 103
	belowWorkDir      = len("/plugin-dir4294967295/plugin4294967295")
	workDirPrefix     = "pw-"
)

// makeWorkDir makes the folder that all sockets of one host lie in, for its user alone.
func makeWorkDir(base string) (string, error) {
	base, err := filepath.Abs(base)
	if err != nil {
		return "", err
	}
	sweep(base)
	for n := 1; ; n++ {
		dir := filepath.Join(base, fmt.Sprintf("%s%d-%d", workDirPrefix, os.Getpid(), n))
		if spare := longestSocketPath - belowWorkDir - len(dir); spare < 0 {
			return "", fmt.Errorf("the folder for temporary files %q makes the path of a socket %d bytes too long: choose a shorter one (TempDir, or TMPDIR in the environment)",
				base, -spare)
		}
		err := os.Mkdir(dir, 0o700)
		if !errors.Is(err, fs.ErrExist) {
			return dir, err
		}
	}
}

// sweep removes the folders of hosts that were killed before they could do so themselves.
func sweep(base string) {
	dirs, _ := filepath.Glob(filepath.Join(base, workDirPrefix+"*"))
	for _, dir := range dirs {
		pid, _, ok := strings.Cut(strings.TrimPrefix(filepath.Base(dir), workDirPrefix), "-")
		if n, err := strconv.Atoi(pid); ok && err == nil && n != os.Getpid() && gone(n) {
			_ = os.RemoveAll(dir) // another user's stays where it is
		}
	}
}
