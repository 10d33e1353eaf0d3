package catalogue

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// A watch looks at files by itself instead of being told by the system: that works on every file system, a shared folder
// included, and a file that is put in another's place is seen as surely as one that is written to.
type watch struct {
	paths   []string
	applied string // what the files held when they were last reported, or at the start
	seen    string // how they looked at the last look
	moving  bool   // they looked different from the time before
}

// maxWatchedBytes is how much of one file is looked at. A plugin that is larger is told by size and time.
const maxWatchedBytes = 256 << 20

func newWatch(paths []string) *watch {
	w := &watch{paths: paths}
	w.seen, w.applied = w.look(), w.content()
	return w
}

// run reports when the files have changed and come to rest. A report that nobody has taken yet stands for the next as well.
func (w *watch) run(ctx context.Context, every time.Duration, changed chan<- struct{}) {
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if w.turned() {
			select {
			case changed <- struct{}{}:
			default:
			}
		}
	}
}

// turned says whether the files hold something else than when last reported. While they still change from look to look it
// waits: somebody is writing.
func (w *watch) turned() bool {
	now := w.look()
	if now != w.seen {
		w.seen, w.moving = now, true
		return false
	}
	if !w.moving {
		return false
	}
	w.moving = false
	content := w.content()
	if w.look() != now { // changed while it was read
		w.moving = true
		return false
	}
	if content == w.applied {
		return false
	}
	w.applied = content
	return true
}

// look is how the files seem from outside: names, sizes and times.
func (w *watch) look() string {
	var b strings.Builder
	w.each(func(path string, info os.FileInfo) {
		fmt.Fprintf(&b, "%s %d %d %s\n", path, info.Size(), info.ModTime().UnixNano(), info.Mode())
	})
	return b.String()
}

// content is what is in the files, as a hash.
func (w *watch) content() string {
	sum := sha256.New()
	w.each(func(path string, info os.FileInfo) {
		fmt.Fprintf(sum, "%s %d\n", path, info.Size())
		if info.Size() > maxWatchedBytes {
			fmt.Fprintln(sum, info.ModTime())
			return
		}
		file, err := os.Open(path)
		if err != nil {
			fmt.Fprintln(sum, "unreadable")
			return
		}
		defer file.Close()
		_, _ = io.Copy(sum, file) // a file that is cut short has another hash
	})
	return hex.EncodeToString(sum.Sum(nil))
}

// each visits the files watched, and those in the folders watched, but for the hidden ones and those that a spreadsheet
// program keeps beside an open workbook.
func (w *watch) each(visit func(path string, info os.FileInfo)) {
	for _, path := range w.paths {
		info, err := os.Stat(path)
		if err != nil {
			continue // one that is not there is no file
		}
		if !info.IsDir() {
			visit(path, info)
			continue
		}
		entries, err := os.ReadDir(path)
		if err != nil {
			continue
		}
		for _, entry := range entries {
			name := entry.Name()
			if strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~") {
				continue
			}
			at := filepath.Join(path, name)
			if info, err := os.Stat(at); err == nil && info.Mode().IsRegular() {
				visit(at, info)
			}
		}
	}
}
