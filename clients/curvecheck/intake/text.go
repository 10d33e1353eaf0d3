// Package intake reads pump curves from what merchants have: CSV of several layouts and encodings, JSON lines, and workbooks. It reads
// one curve at a time, says how it understood the file, and writes the file again with curves changed.
package intake

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// mostRecord bounds one row, quoted line breaks included: nothing a merchant writes is as long, and a file without line breaks is
// refused before it fills the memory.
const mostRecord = 1 << 20

// sample is how much of a file is looked at to tell its encoding, separator and decimal mark.
const sample = 64 << 10

var errLong = errors.New("a row is longer than a million bytes: this is no table, or a quote is not closed")

// decoded turns a file into UTF-8, and says from what.
func decoded(r io.Reader) (*bufio.Reader, string, error) {
	in := bufio.NewReaderSize(r, sample)
	head, err := in.Peek(sample)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, bufio.ErrBufferFull) {
		return nil, "", err
	}
	wide := func(order unicode.Endianness, name string) (*bufio.Reader, string, error) {
		decoder := unicode.UTF16(order, unicode.UseBOM).NewDecoder()
		return bufio.NewReaderSize(transform.NewReader(in, decoder), sample), name, nil
	}
	switch even, odd := zeros(head); {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		_, err := in.Discard(3)
		return bufio.NewReaderSize(&repaired{in: in}, sample), "UTF-8 with a byte-order mark", err
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		return wide(unicode.LittleEndian, "UTF-16, little end first")
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		return wide(unicode.BigEndian, "UTF-16, big end first")
	case odd > len(head)/4 && even == 0:
		return wide(unicode.LittleEndian, "UTF-16, little end first, without a byte-order mark")
	case even > len(head)/4 && odd == 0:
		return wide(unicode.BigEndian, "UTF-16, big end first, without a byte-order mark")
	case even+odd > 0:
		return nil, "", errors.New("is not a text: it has bytes of zero in it")
	case !utf8.Valid(whole(head)):
		return bufio.NewReaderSize(transform.NewReader(in, charmap.Windows1252.NewDecoder()), sample), "Windows-1252 (Latin-1), since it is not UTF-8", nil
	}
	return bufio.NewReaderSize(&repaired{in: in}, sample), "UTF-8", nil
}

// zeros counts bytes of zero at even and at odd places.
func zeros(b []byte) (even, odd int) {
	for i, c := range b {
		if c == 0 {
			if i%2 == 0 {
				even++
			} else {
				odd++
			}
		}
	}
	return even, odd
}

// whole is a text without the letter that its end cuts in two.
func whole(b []byte) []byte {
	for cut := 1; cut < utf8.UTFMax && cut <= len(b); cut++ {
		if c := b[len(b)-cut]; utf8.RuneStart(c) {
			if c >= utf8.RuneSelf && !utf8.FullRune(b[len(b)-cut:]) {
				return b[:len(b)-cut]
			}
			break
		}
	}
	return b
}

// repaired refuses letters that turn up late and are not UTF-8, where a file has begun as such.
type repaired struct {
	in   *bufio.Reader
	rest []byte // of a letter that the last reading cut in two
	line int
}

func (r *repaired) Read(p []byte) (int, error) {
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	m, err := r.in.Read(p[n:])
	got := p[:n+m]
	kept := got
	if err == nil {
		kept = whole(got)
	}
	if i := invalid(kept); i >= 0 {
		line := r.line + 1 + bytes.Count(kept[:i], []byte("\n"))
		return 0, fmt.Errorf("line %d has letters that are not UTF-8, though the file begins in it: save it as one or the other", line)
	}
	if bytes.IndexByte(kept, 0) >= 0 {
		return 0, errors.New("is not a text: it has bytes of zero in it")
	}
	r.line += bytes.Count(kept, []byte("\n"))
	r.rest = append(r.rest[:0:0], got[len(kept):]...)
	if len(kept) == 0 && err == nil && len(got) > 0 {
		return r.Read(p)
	}
	return len(kept), err
}

// invalid is where the first byte is that is no UTF-8; below 0 where all is.
func invalid(b []byte) int {
	if utf8.Valid(b) {
		return -1
	}
	for i := 0; i < len(b); {
		c, n := utf8.DecodeRune(b[i:])
		if c == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

// bounded refuses a row that goes on and on.
type bounded struct {
	in    io.Reader
	since int
}

func (b *bounded) Read(p []byte) (int, error) {
	if b.since > mostRecord {
		return 0, errLong
	}
	n, err := b.in.Read(p)
	b.since += n
	return n, err
}
