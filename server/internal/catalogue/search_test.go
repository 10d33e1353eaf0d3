package catalogue_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	"example.com/pondwright/server/internal/catalogue"
)

// shops has read some catalogues of pumps, by number and description.
func shops(t *testing.T, priority map[string]int, items map[string][][2]string) *catalogue.Snapshot {
	t.Helper()
	var sources []catalogue.Source
	for name := range items {
		s := source(name)
		s.Priority = priority[name]
		sources = append(sources, s)
	}
	store := newStore(t, &gate{give: func(_ context.Context, name string, _ int) ([]*eq.Item, error) {
		var made []*eq.Item
		for _, i := range items[name] {
			made = append(made, pump(i[0], i[1]))
		}
		return made, nil
	}}, sources...)
	require.NoError(t, store.Start(t.Context()))
	return store.Snapshot()
}

func found(hits []catalogue.Hit) []string {
	var keys []string
	for _, h := range hits {
		keys = append(keys, h.Item.GetCatalogue()+"/"+h.Item.GetItem().GetItemNumber())
	}
	return keys
}

func TestSearchFindsWordsAndHowTheyBegin(t *testing.T) {
	s := shops(t, nil, map[string][][2]string{"shop": {
		{"PU-1230", "thrifty filter pump, cage, 10 m cable"},
		{"PU-1240", "filter pump for 50 mm hose"},
		{"FP-50", "for falls, 1230 litres in the bucket test"},
		{"Ü-7", "Förderpumpe, 50mm"},
	}})
	for question, want := range map[string][]string{
		"filter":      {"shop/PU-1230", "shop/PU-1240"},
		"FILTER pum":  {"shop/PU-1230", "shop/PU-1240"},
		"filter hose": {"shop/PU-1240"},
		"pu-1230":     {"shop/PU-1230"},
		"pu1230":      {"shop/PU-1230"},
		"PU 1230":     {"shop/PU-1230"},
		"1230":        {"shop/PU-1230", "shop/FP-50"}, // in a number before in a description
		"50 mm":       {"shop/PU-1240", "shop/Ü-7"},
		"50mm":        {"shop/PU-1240", "shop/Ü-7"},
		"forder":      {"shop/Ü-7"},
		"FÖRDER":      {"shop/Ü-7"},
		"u-7":         {"shop/Ü-7"},
		"umpe":        nil, // in the middle of a word
		"filter boat": nil,
		"--":          nil,
	} {
		assert.Equal(t, want, found(s.Search(question, "")), question)
	}
	assert.True(t, catalogue.HasWords("a"))
	assert.False(t, catalogue.HasWords("-- /"))
}

// Of items that fit equally well those of the preferred catalogue come first, then the number decides.
func TestSearchPutsThePreferredCatalogueFirst(t *testing.T) {
	items := map[string][][2]string{"a": {{"P-2", "pump"}, {"P-1", "pump"}}, "b": {{"P-1", "pump"}}}
	s := shops(t, map[string]int{"b": 1}, items)
	assert.Equal(t, []string{"b/P-1", "a/P-1", "a/P-2"}, found(s.Search("pump", "")))
	assert.Equal(t, []string{"a/P-1", "a/P-2"}, found(s.Search("pump", "a")))
	assert.Empty(t, s.Search("pump", "none"))
	s = shops(t, nil, items)
	assert.Equal(t, []string{"a/P-1", "a/P-2", "b/P-1"}, found(s.Search("pump", "")))
}

func TestItemsAreFoundByCatalogueAndNumber(t *testing.T) {
	s := shops(t, nil, map[string][][2]string{"a": {{"P-2", "pump"}, {"P-1", "pump"}}, "b": {{"P-1", "pump"}}})
	assert.Equal(t, "a", s.Item("a", "P-1").GetCatalogue())
	assert.Equal(t, "b", s.Item("b", "P-1").GetCatalogue())
	assert.Nil(t, s.Item("b", "P-2"))
	assert.Nil(t, s.Item("none", "P-1"))
	assert.Len(t, s.Holders("", "P-1"), 2)
	assert.Len(t, s.Holders("b", "P-1"), 1)
	assert.Empty(t, s.Holders("", "P-3"))
	assert.Equal(t, 0, s.After("", ""))
	assert.Equal(t, 1, s.After("a", "P-1"))
	assert.Equal(t, 1, s.After("a", "P-10"), "one that is not there any more")
	assert.Equal(t, 3, s.After("z", ""))
}

// Whatever is asked, search finds exactly the items in which every word of the question begins a word, and turns pages
// without repeating or skipping one.
func TestSearchAgreesWithReadingEveryItem(t *testing.T) {
	words := []string{"pump", "filter", "fall", "fine", "fin", "cage", "cable"}
	var items [][2]string
	for i := range 60 {
		text := words[i%len(words)] + " " + words[(i/7)%len(words)]
		items = append(items, [2]string{strings.Repeat("N", i+1), text})
	}
	s := shops(t, nil, map[string][][2]string{"a": items[:30], "b": items[30:]})
	rapid.Check(t, func(r *rapid.T) {
		asked := rapid.SliceOfN(rapid.SampledFrom([]string{"p", "fi", "fin", "fal", "ca", "cage", "zz", "nn"}), 1, 3).Draw(r, "words")
		hits := s.Search(strings.Join(asked, " "), "")
		want := map[string]bool{}
		for _, entry := range s.Items {
			if holdsAll(entry.GetItem(), asked) {
				want[entry.GetCatalogue()+"/"+entry.GetItem().GetItemNumber()] = true
			}
		}
		got := found(hits)
		if len(got) != len(want) {
			r.Fatalf("%v: found %v, want %v", asked, got, want)
		}
		for _, key := range got {
			if !want[key] {
				r.Fatalf("%v: found %s, which does not hold them", asked, key)
			}
		}
		for i, h := range hits {
			from, err := s.Beyond(hits, h.Rank(), h.Item.GetCatalogue(), h.Item.GetItem().GetItemNumber())
			if err != nil || from != i+1 {
				r.Fatalf("the page after hit %d begins at %d (%v)", i, from, err)
			}
		}
	})
}

func holdsAll(item *eq.Item, asked []string) bool {
	for _, word := range asked {
		holds := false
		for _, has := range append(strings.Fields(item.GetDescription()), strings.ToLower(item.GetItemNumber())) {
			holds = holds || strings.HasPrefix(has, word)
		}
		if !holds {
			return false
		}
	}
	return true
}
