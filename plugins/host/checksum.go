package host

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"runtime"
	"strings"
)

// verify holds the executable to its pinned checksum. It does so itself because go-plugin's own check cannot be used with a
// custom runner, and keeps the state of its hash from one use to the next.
func (p Plugin) verify(log *slog.Logger) error {
	if self, err := Self(); err == nil && p.Path == self {
		return nil // the host itself: whoever can change it needs no plugin
	}
	warnIfWritable(p.Path, log)
	if p.SHA256 == "" {
		log.Warn("catalogue plugin is not pinned: set its SHA-256 so that no other file can take its place", "path", p.Path)
		return nil
	}
	got, err := SHA256File(p.Path)
	if err != nil {
		return &Failure{Plugin: p.Name, What: "cannot be read to check its SHA-256", Change: "check the path and who may read it", Err: errors.Join(ErrStart, err)}
	}
	if want := strings.ToLower(strings.TrimSpace(p.SHA256)); got != want {
		return &Failure{
			Plugin: p.Name,
			What:   fmt.Sprintf("is not the file that was pinned: its SHA-256 is %s, configured is %s", got, want),
			Change: "find out who changed the file; if the change is wanted, pin the new checksum",
			Err:    ErrChecksum,
		}
	}
	return nil
}

// SHA256File is the checksum to pin a plugin by, in hexadecimal.
func SHA256File(path string) (string, error) {
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// warnIfWritable speaks up where others than the owner can replace what the host is about to run.
func warnIfWritable(path string, log *slog.Logger) {
	const groupOrOthers = 0o022
	info, err := os.Stat(path)
	if err == nil && runtime.GOOS != "windows" && info.Mode().Perm()&groupOrOthers != 0 {
		log.Warn("catalogue plugin can be overwritten by others than its owner: chmod go-w", "path", path, "mode", info.Mode().String())
	}
}
