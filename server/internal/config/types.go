package config

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Path is that of a file. In the file of settings it counts from the folder that file is in.
type Path string

// Bytes is a size in bytes, written as a whole number with or without KiB, MiB or GiB.
type Bytes int64

var sizes = []struct {
	unit  string
	bytes int64
}{{"GiB", 1 << 30}, {"MiB", 1 << 20}, {"KiB", 1 << 10}}

// UnmarshalText implements encoding.TextUnmarshaler.
func (b *Bytes) UnmarshalText(text []byte) error {
	number, times := strings.TrimSpace(string(text)), int64(1)
	for _, s := range sizes {
		if rest, found := strings.CutSuffix(number, s.unit); found {
			number, times = strings.TrimSpace(rest), s.bytes
			break
		}
	}
	n, err := strconv.ParseInt(number, 10, 64)
	if err != nil || n < 0 || n > math.MaxInt64/times {
		return fmt.Errorf("%q is not a size: write a whole number with KiB, MiB or GiB behind it, such as 4MiB", text)
	}
	*b = Bytes(n * times)
	return nil
}

// MarshalText implements encoding.TextMarshaler.
func (b Bytes) MarshalText() ([]byte, error) {
	for _, s := range sizes {
		if b != 0 && int64(b)%s.bytes == 0 {
			return []byte(strconv.FormatInt(int64(b)/s.bytes, 10) + s.unit), nil
		}
	}
	return []byte(strconv.FormatInt(int64(b), 10)), nil
}

// A Secret is never printed.
type Secret string

const mask = "(not shown)"

// MarshalText implements encoding.TextMarshaler.
func (s Secret) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// String implements fmt.Stringer.
func (s Secret) String() string {
	if s == "" {
		return ""
	}
	return mask
}

// GoString implements fmt.GoStringer.
func (s Secret) GoString() string { return s.String() }
