package recall

import "strings"

// alphabet is Crockford's of base 32: no I, L, O or U, which are read as other letters or as words.
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// bits are written and read from the first on, one to a byte.
type bits struct {
	all   []byte
	at    int
	short bool // more was asked for than there is
}

func (b *bits) put(x uint64, n int) {
	for i := n - 1; i >= 0; i-- {
		b.all = append(b.all, byte(x>>i&1))
	}
}

func (b *bits) flag(on bool) {
	if on {
		b.put(1, 1)
	} else {
		b.put(0, 1)
	}
}

func (b *bits) take(n int) (x uint64) {
	for range n {
		if b.at >= len(b.all) {
			b.short = true
			return 0
		}
		x = x<<1 | uint64(b.all[b.at])
		b.at++
	}
	return x
}

// letters writes five bits to each.
func (b *bits) letters() string {
	var out strings.Builder
	r := bits{all: b.all}
	for range len(b.all) / 5 {
		out.WriteByte(alphabet[r.take(5)])
	}
	return out.String()
}

var mistaken = strings.NewReplacer("O", "0", "I", "1", "L", "1", "-", "", " ", "", "–", "", "\t", "")

func unlettered(code string) ([]byte, bool) {
	if len(code) > 400 {
		return nil, false
	}
	var b bits
	for _, c := range mistaken.Replace(strings.ToUpper(code)) {
		i := strings.IndexRune(alphabet, c)
		if i < 0 {
			return nil, false
		}
		b.put(uint64(i), 5)
	}
	return b.all, len(b.all) > 0
}
