package catalogue

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// An index finds the items of one shelf by the words of their number and description. Its words are in order, so that all
// that begin with the letters typed stand side by side.
type index struct {
	words   []string
	holders [][]posting // by word
}

// A posting is one item that holds a word.
type posting struct {
	item int32
	kind holding
}

// A holding is where an item holds a word, the least worth first.
type holding int8

const (
	inDescription holding = iota
	inNumber              // a part of it
	asNumber              // all of it, without dashes and blanks
)

// How much a match is worth. The number outdoes any description of up to nine words.
var worth = [...]struct{ whole, beginning int32 }{
	inDescription: {10, 4},
	inNumber:      {30, 20},
	asNumber:      {200, 50},
}

// newIndex makes the index of items.
func newIndex(items []*pb.CataloguedItem) index {
	held := map[string][]posting{}
	for i, entry := range items {
		best := map[string]holding{}
		for _, w := range split(entry.GetItem().GetDescription()) {
			best[w] = max(best[w], inDescription)
		}
		for _, w := range split(entry.GetItem().GetItemNumber()) {
			best[w] = max(best[w], inNumber)
		}
		if whole := compact(entry.GetItem().GetItemNumber()); whole != "" {
			best[whole] = asNumber
		}
		for w, kind := range best {
			held[w] = append(held[w], posting{int32(i), kind})
		}
	}
	x := index{words: make([]string, 0, len(held))}
	for w := range held {
		x.words = append(x.words, w)
	}
	slices.Sort(x.words)
	x.holders = make([][]posting, len(x.words))
	for i, w := range x.words {
		x.holders[i] = slices.Clip(held[w])
	}
	return x
}

// find gives the worth of every item that holds all the words of a question, or one that begins so.
func (x index) find(question string) map[int32]int32 {
	var found map[int32]int32
	for _, asked := range strings.Fields(question) {
		parts := split(asked)
		if len(parts) == 0 {
			continue
		}
		hits := x.holding(compact(asked))
		if len(parts) > 1 { // "PU-1230" as a whole, or all of its parts
			merge(hits, x.all(parts))
		}
		found = both(found, hits)
		if len(found) == 0 {
			return nil
		}
	}
	return found
}

// all gives the items that hold each of some words.
func (x index) all(words []string) map[int32]int32 {
	var found map[int32]int32
	for _, w := range words {
		found = both(found, x.holding(w))
	}
	return found
}

// holding gives the items that hold a word, or one that begins with it, and what that is worth.
func (x index) holding(word string) map[int32]int32 {
	hits := map[int32]int32{}
	first, _ := slices.BinarySearch(x.words, word)
	for i := first; i < len(x.words) && strings.HasPrefix(x.words[i], word); i++ {
		for _, p := range x.holders[i] {
			value := worth[p.kind].beginning
			if len(x.words[i]) == len(word) {
				value = worth[p.kind].whole
			}
			hits[p.item] = max(hits[p.item], value)
		}
	}
	return hits
}

// both keeps the items that are in each of two, and adds up what they are worth. Nothing asked yet is nil.
func both(a, b map[int32]int32) map[int32]int32 {
	if a == nil {
		return b
	}
	for item, value := range a {
		if more, ok := b[item]; ok {
			a[item] = value + more
		} else {
			delete(a, item)
		}
	}
	return a
}

func merge(into, from map[int32]int32) {
	for item, value := range from {
		into[item] = max(into[item], value)
	}
}

// A Hit is an item found, and how well it fits the question.
type Hit struct {
	Item  *pb.CataloguedItem
	Score int32
	shelf int // what comes first among equals
}

// Rank is the place of a hit among others, for Beyond.
func (h Hit) Rank() string { return strconv.Itoa(int(h.Score)) }

// Beyond is the place of the first hit that comes after one of another search of the same question.
func (s *Snapshot) Beyond(hits []Hit, rank, catalogue, number string) (int, error) {
	score, err := strconv.ParseInt(rank, 10, 32)
	if err != nil {
		return 0, err
	}
	last := Hit{Score: int32(score), shelf: slices.IndexFunc(s.shelves, func(c *shelf) bool { return c.name == catalogue })}
	at, found := slices.BinarySearchFunc(hits, last, func(h, last Hit) int {
		return cmp.Or(cmp.Compare(last.Score, h.Score), cmp.Compare(h.shelf, last.shelf), strings.Compare(h.Item.GetItem().GetItemNumber(), number))
	})
	if found {
		at++
	}
	return at, nil
}

// HasWords says whether there is anything in a question to search by.
func HasWords(question string) bool { return len(split(question)) > 0 }

// Search finds the items of every catalogue, or of one, that hold all the words of a question: the best first, then those of
// the preferred catalogue, then by number. The order is the same for the same snapshot.
func (s *Snapshot) Search(question, catalogue string) []Hit {
	var hits []Hit
	for rank, c := range s.shelves {
		if catalogue != "" && catalogue != c.name {
			continue
		}
		for i, score := range c.words.find(question) {
			hits = append(hits, Hit{Item: c.items[i], Score: score, shelf: rank})
		}
	}
	slices.SortFunc(hits, func(a, b Hit) int {
		return cmp.Or(cmp.Compare(b.Score, a.Score), cmp.Compare(a.shelf, b.shelf),
			strings.Compare(a.Item.GetItem().GetItemNumber(), b.Item.GetItem().GetItemNumber()))
	})
	return hits
}

// split takes a text apart into words: letters without accents and in small, or digits. "50mm" is "50" and "mm".
func split(text string) []string {
	var words []string
	var word strings.Builder
	digits := false
	end := func() {
		if word.Len() > 0 {
			words = append(words, word.String())
			word.Reset()
		}
	}
	for _, r := range fold(text) {
		switch isDigit := unicode.IsDigit(r); {
		case !isDigit && !unicode.IsLetter(r):
			end()
			continue
		case isDigit != digits:
			end()
			digits = isDigit
		}
		word.WriteRune(r)
	}
	end()
	return words
}

// compact is a number without what people leave out or put in as they type it.
func compact(text string) string { return strings.Join(split(text), "") }

// fold makes letters small and takes their accents off.
func fold(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFKD.String(text))
}
