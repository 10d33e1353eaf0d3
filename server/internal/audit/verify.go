package audit

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
)

// longest is more than any entry: a request of 4 MiB and its answer, in base64.
const longest = 256 << 20

// An End is where a log stands: write it down elsewhere, and entries that are cut off the end later can be missed.
type End struct {
	First   uint64 // number of the first entry read
	Entries uint64
	Hash    string // of the last entry
	number  uint64
	hash    string
}

// Verify reads files in order and hands each entry on, until one does not fit. The first file may begin in the middle of a
// log whose older files were dropped; each after it has to go on where the one before ends.
func Verify(files []string, each func(Entry) error) (End, error) {
	var end *End
	var first, entries uint64
	for _, path := range files {
		now, err := verifyFile(path, end, func(e Entry) error {
			if entries == 0 {
				first = e.Number
			}
			entries++
			return each(e)
		})
		if err != nil {
			return End{First: first, Entries: entries}, err
		}
		end = now
	}
	if end == nil {
		return End{}, errors.New("there is nothing to verify")
	}
	return End{First: first, Entries: entries, Hash: end.hash}, nil
}

// verifyFile holds one file to itself and to what went before, and says where it ends.
func verifyFile(path string, before *End, each func(Entry) error) (*End, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("audit log: %w", err)
	}
	defer f.Close()
	at := before
	in := bufio.NewReaderSize(io.LimitReader(f, 1<<40), 1<<16)
	for line := 1; ; line++ {
		text, err := readLine(in)
		if errors.Is(err, io.EOF) {
			break
		}
		fail := func(err error) (*End, error) { return nil, fmt.Errorf("%s line %d: %w", path, line, err) }
		if err != nil {
			return fail(err)
		}
		e, err := open(text)
		if err != nil {
			return fail(err)
		}
		switch {
		case at == nil && (e.Number == 1) != (e.Before == ""):
			return fail(errors.New("the first entry names one before it, or a later one does not"))
		case at != nil && e.Number != at.number+1:
			return fail(fmt.Errorf("is entry %d where %d should be: entries are missing or were put in", e.Number, at.number+1))
		case at != nil && e.Before != at.hash:
			return fail(errors.New("does not follow from the entry before it: that one was changed"))
		}
		if err := each(e); err != nil {
			return fail(err)
		}
		at = &End{number: e.Number, hash: e.Hash}
	}
	if at == nil {
		at = &End{}
	}
	return at, nil
}

// readLine reads to the end of a line, and no further than any entry goes. A last line without an end is a fault.
func readLine(in *bufio.Reader) ([]byte, error) {
	var line []byte
	for {
		part, err := in.ReadSlice('\n')
		line = append(line, part...)
		switch {
		case len(line) > longest:
			return nil, errors.New("is longer than any entry")
		case err == nil:
			return line, nil
		case errors.Is(err, io.EOF) && len(line) > 0:
			return nil, errors.New("was cut short")
		case !errors.Is(err, bufio.ErrBufferFull):
			return nil, err
		}
	}
}
