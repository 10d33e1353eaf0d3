package audit

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"time"

	"example.com/pondwright/server/internal/config"
)

// A Log is a folder of files that are filled one after the other. One process at a time writes to it.
type Log struct {
	how    config.Audit
	lock   *os.File
	mu     sync.Mutex
	file   *os.File
	size   int64
	number uint64 // of the last entry
	hash   string // of the last entry
	broken error
}

// pattern is the name of a file by the number of its first entry, so that names in order are entries in order.
const (
	pattern = "audit-%020d.jsonl"
	glob    = "audit-*.jsonl"
)

// Open goes on with the log of a folder, which it makes. It holds the last file to its hashes first. An entry that was cut
// short, as by a power cut, is set aside in a file of its own; mended says so.
func Open(how config.Audit) (l *Log, mended string, err error) {
	folder := string(how.Folder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, "", fmt.Errorf("audit log: %w", err)
	}
	l = &Log{how: how}
	if l.lock, err = os.OpenFile(filepath.Join(folder, "lock"), os.O_CREATE|os.O_RDWR, 0o600); err != nil {
		return nil, "", fmt.Errorf("audit log: %w", err)
	}
	if err := syscall.Flock(int(l.lock.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		return nil, "", errors.Join(fmt.Errorf("audit log: another server writes to %s; give each a folder of its own", folder), l.lock.Close())
	}
	mended, err = l.goOn()
	if err != nil {
		return nil, "", errors.Join(err, l.lock.Close())
	}
	return l, mended, nil
}

func (l *Log) goOn() (mended string, err error) {
	files, err := Files(string(l.how.Folder))
	if err != nil || len(files) == 0 {
		return "", err
	}
	last := files[len(files)-1]
	if mended, err = setAside(last); err != nil {
		return "", err
	}
	end, err := verifyFile(last, nil, func(Entry) error { return nil })
	if err != nil {
		return "", fmt.Errorf("audit log cannot be gone on with: %w", err)
	}
	l.number, l.hash = end.number, end.hash
	l.file, err = os.OpenFile(last, os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return "", fmt.Errorf("audit log: %w", err)
	}
	info, err := l.file.Stat()
	if err != nil {
		return "", errors.Join(err, l.file.Close())
	}
	l.size = info.Size()
	return mended, nil
}

// setAside moves the start of an entry that has no end into a file of its own.
func setAside(path string) (mended string, err error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("audit log: %w", err)
	}
	whole := slices.Index(reversed(text), '\n') // bytes behind the last line
	if whole == 0 || len(text) == 0 {
		return "", nil
	}
	if whole < 0 {
		whole = len(text)
	}
	aside := path + ".cut-short"
	if err := os.WriteFile(aside, text[len(text)-whole:], 0o600); err != nil {
		return "", fmt.Errorf("audit log: %w", err)
	}
	if err := os.Truncate(path, int64(len(text)-whole)); err != nil {
		return "", fmt.Errorf("audit log: %w", err)
	}
	return aside, nil
}

func reversed(text []byte) []byte {
	r := slices.Clone(text)
	slices.Reverse(r)
	return r
}

// Files are those of a log, in order.
func Files(folder string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(folder, glob))
	if err != nil {
		return nil, fmt.Errorf("audit log: %w", err)
	}
	slices.Sort(files)
	return files, nil
}

// Append numbers, binds and writes an entry. Once a write has failed there are no more: a log with a hole proves nothing.
func (l *Log) Append(e Entry) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.broken != nil {
		return l.broken
	}
	e.Number, e.Before, e.Time = l.number+1, l.hash, time.Now().UTC()
	line, hash, err := e.sealed()
	if err == nil {
		err = l.write(line, e.Number)
	}
	if err != nil {
		l.broken = fmt.Errorf("audit log: %w", err)
		return l.broken
	}
	l.number, l.hash = e.Number, hash
	return nil
}

func (l *Log) write(line []byte, number uint64) error {
	if l.file == nil || l.size+int64(len(line)) > int64(l.how.Rotate) && l.size > 0 {
		if err := l.rotate(number); err != nil {
			return err
		}
	}
	n, err := l.file.Write(line)
	l.size += int64(n)
	if err == nil && l.how.Sync {
		err = l.file.Sync()
	}
	return err
}

func (l *Log) rotate(number uint64) error {
	if l.file != nil {
		if err := errors.Join(l.file.Sync(), l.file.Close()); err != nil {
			return err
		}
	}
	var err error
	name := filepath.Join(string(l.how.Folder), fmt.Sprintf(pattern, number))
	if l.file, err = os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_APPEND|os.O_WRONLY, 0o600); err != nil {
		return err
	}
	l.size = 0
	return l.drop()
}

// drop removes the oldest files above those to keep.
func (l *Log) drop() error {
	if l.how.Keep == 0 {
		return nil
	}
	files, err := Files(string(l.how.Folder))
	if err != nil {
		return err
	}
	for len(files) > l.how.Keep {
		if err := os.Remove(files[0]); err != nil {
			return err
		}
		files = files[1:]
	}
	return nil
}

// Close ends the log.
func (l *Log) Close() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.broken = errors.New("audit log: closed")
	var err error
	if l.file != nil {
		err = errors.Join(l.file.Sync(), l.file.Close())
	}
	return errors.Join(err, l.lock.Close())
}
