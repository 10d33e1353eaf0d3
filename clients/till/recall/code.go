// Package recall writes a design as a code short enough to print and to type, and reads it back. The code holds what was asked, as
// it was typed, and which items the kit is made of; nothing is kept anywhere else. Prices and the judgement are calculated anew.
package recall

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"

	"example.com/pondwright/clients/till/form"
)

// Kinds of item in a design, in the order of the code. With a second pump that has a hose of its own, that one feeds the fall; one
// without stands beside the first.
var Kinds = [...]string{"pump", "hose", "filter", "lamp", "pump2", "hose2"}

// A Design is a question and the kit that answers it. An item is its fingerprint; 0 stands for none.
type Design struct {
	Values form.Values
	Items  [len(Kinds)]uint32
	// Owned already, and so not bought.
	Owned [len(Kinds)]bool
}

// Fingerprint of an item: 20 bits of the SHA-256 of its catalogue and number, never 0. Two of 300 items of a kind share one once
// in some twenty catalogues, and whoever reads the code then has to choose.
func Fingerprint(catalogue, number string) uint32 {
	sum := sha256.Sum256([]byte(catalogue + "\x00" + number))
	return max(binary.BigEndian.Uint32(sum[:])>>(32-itemBits), 1)
}

const (
	version     = 1
	versionBits = 4
	unitBits    = 2
	choiceBits  = 3
	itemBits    = 20
	checkBits   = 12
	group       = 4
)

// The errors of a code that cannot be read.
var (
	ErrCode    = errors.New("this is not a whole code: it has groups of four letters and digits; look for one left out or mistaken")
	ErrVersion = errors.New("this code was printed by a later version of the till")
)

// Write makes the code: groups of four of the letters and digits that are not taken for one another.
func Write(d Design) (string, error) {
	var b bits
	b.put(version, versionBits)
	for i, s := range form.Systems() {
		if s.Key == d.Values.System().Key {
			b.put(uint64(i), unitBits)
		}
	}
	for _, f := range form.Fields() {
		if err := b.field(f, d.Values[f.Name]); err != nil {
			return "", err
		}
	}
	for i := range Kinds {
		b.flag(d.Items[i] != 0)
		if d.Items[i] != 0 {
			b.flag(d.Owned[i])
			b.put(uint64(d.Items[i]), itemBits)
		}
	}
	for len(b.all)%5 != (5-checkBits%5)%5 { // so that check and all fill letters
		b.flag(false)
	}
	b.put(check(b.all), checkBits)
	return grouped(b.letters()), nil
}

// Read takes a code as people type it: in any case, with or without its hyphens, O for 0 and I or L for 1.
func Read(code string) (Design, error) {
	all, ok := unlettered(code)
	if !ok || len(all) < versionBits+unitBits+checkBits {
		return Design{}, ErrCode
	}
	body := all[:len(all)-checkBits]
	end := bits{all: all, at: len(body)}
	if end.take(checkBits) != check(body) {
		return Design{}, ErrCode
	}
	b := bits{all: body}
	if b.take(versionBits) != version {
		return Design{}, ErrVersion
	}
	systems := form.Systems()
	system := b.take(unitBits)
	if system >= uint64(len(systems)) {
		return Design{}, ErrVersion
	}
	d := Design{Values: form.Values{form.Units: systems[system].Key}}
	for _, f := range form.Fields() {
		text, err := b.unfield(f)
		if err != nil {
			return Design{}, err
		}
		if text != "" {
			d.Values[f.Name] = text
		}
	}
	for i := range Kinds {
		if b.take(1) == 1 {
			d.Owned[i] = b.take(1) == 1
			d.Items[i] = uint32(b.take(itemBits))
		}
	}
	if b.short {
		return Design{}, ErrCode
	}
	return d, nil
}

// check is a checksum of the bits before it: a mistyped letter passes once in 4,096 times.
func check(body []byte) uint64 {
	sum := sha256.Sum256(body)
	return uint64(binary.BigEndian.Uint16(sum[:])) >> (16 - checkBits)
}

// field writes a choice by its place, and a number by its digits, so that what comes back is what was typed.
func (b *bits) field(f form.Field, text string) error {
	b.flag(text != "")
	if text == "" {
		return nil
	}
	if len(f.Choices) > 0 {
		for i, c := range f.Choices {
			if c.Key == text {
				b.put(uint64(i), choiceBits)
				return nil
			}
		}
		return fmt.Errorf("%q is no choice for %s", text, f.Name)
	}
	d, err := parseDecimal(text)
	if err != nil {
		return fmt.Errorf("%s: %w", f.Name, err)
	}
	b.decimal(d)
	return nil
}

func (b *bits) unfield(f form.Field) (string, error) {
	if b.take(1) == 0 {
		return "", nil
	}
	if len(f.Choices) == 0 {
		return b.undecimal().String(), nil
	}
	i := b.take(choiceBits)
	if i >= uint64(len(f.Choices)) {
		return "", ErrVersion
	}
	return f.Choices[i].Key, nil
}

func grouped(letters string) string {
	var b strings.Builder
	for i, c := range letters {
		if i > 0 && i%group == 0 {
			b.WriteByte('-')
		}
		b.WriteRune(c)
	}
	return b.String()
}
