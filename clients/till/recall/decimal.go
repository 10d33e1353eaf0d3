package recall

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// A decimal is its digits as a whole number, and how many of them stand behind the point.
type decimal struct {
	digits uint64
	places int
}

const (
	placeBits = 3
	classBits = 2
)

// classes are the bits that digits may take, the fewest that are enough being used.
var classes = [1 << classBits]int{7, 10, 17, 34}

var errDecimal = errors.New("only plain numbers go into a code")

func parseDecimal(text string) (decimal, error) {
	text = strings.ReplaceAll(text, ",", "")
	whole, fraction, _ := strings.Cut(text, ".")
	fraction = strings.TrimRight(fraction, "0")
	n, err := strconv.ParseUint(whole+fraction, 10, 64)
	if err != nil || len(fraction) >= 1<<placeBits || n >= 1<<classes[len(classes)-1] {
		return decimal{}, fmt.Errorf("%w, and %q is none", errDecimal, text)
	}
	return decimal{n, len(fraction)}, nil
}

// String is the number as it is typed.
func (d decimal) String() string {
	text := strconv.FormatUint(d.digits, 10)
	if d.places == 0 {
		return text
	}
	for len(text) <= d.places {
		text = "0" + text
	}
	return text[:len(text)-d.places] + "." + text[len(text)-d.places:]
}

func (b *bits) decimal(d decimal) {
	for class, n := range classes {
		if d.digits < 1<<n {
			b.put(uint64(class), classBits)
			b.put(uint64(d.places), placeBits)
			b.put(d.digits, n)
			return
		}
	}
}

func (b *bits) undecimal() decimal {
	class := b.take(classBits)
	places := b.take(placeBits)
	return decimal{b.take(classes[class]), int(places)}
}
