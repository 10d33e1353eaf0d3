package kit

import "math"

// Stock is how many of an item there are. The zero value is not known.
type Stock struct {
	Known bool
	Count int
	Owned bool // the owner has it already, or names it: it is chosen where it is kept and nowhere else
}

// A StockRule says which items may be chosen by what is in stock.
type StockRule int

// The rules.
const (
	AnyStock    StockRule = iota // whatever is in stock
	InStock                      // what is known to be there
	NotKnownOut                  // what is known to be there or not known at all
)

// allows reports whether the rule lets so many of an item be chosen.
func (r StockRule) allows(s Stock, need int) bool {
	switch {
	case r == AnyStock || s.Owned:
		return true
	case !s.Known:
		return r == NotKnownOut
	}
	return s.Count >= need
}

// metres is the hose to be cut, in whole metres.
func (f *Finder) metres() int { return int(math.Ceil(f.q.Hose.Metres())) }
