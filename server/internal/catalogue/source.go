package catalogue

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"time"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/plugins/host"
)

// DefaultLiveTimeout is how long a plugin may take over one live question where a Source says nothing else.
const DefaultLiveTimeout = 2 * time.Second

// A Source is one catalogue as it is configured: the plugin it comes from, and when it is read again.
type Source struct {
	Plugin host.Plugin

	// Priority decides between offers that are equal in all else: the greater comes first, and of equal ones the name that
	// is first in the alphabet.
	Priority int

	// Refresh is the time between readings, give or take a tenth so that catalogues do not all start at once; 0 reads again
	// only when asked, or when a watched file changes.
	Refresh time.Duration

	// Watch lists files and folders that the catalogue is made of. When what is in them has changed, and has come to rest,
	// it is read again.
	Watch []string

	// LiveTimeout is how long the plugin may take over one live question; DefaultLiveTimeout when 0.
	LiveTimeout time.Duration
}

// Name is what the engine calls the catalogue.
func (s Source) Name() string { return s.Plugin.Name }

// CSV is a folder of CSV files, or an xlsx workbook, as a source that is read again when a file in it changes.
func CSV(name, at string) (Source, error) {
	p, err := builtin.CSVPlugin(name, at)
	if err != nil {
		return Source{}, err
	}
	return Source{Plugin: p, Watch: []string{p.Args[len(p.Args)-1]}}, nil
}

// names are those that can stand in an address, a metric and a page token without being escaped.
var names = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$`)

// CheckSources says what is wrong with a set of sources, with every fault at once; nothing where they can be read.
func CheckSources(sources []Source) []string {
	var faults []string
	seen := map[string]bool{}
	for i, s := range sources {
		name := s.Name()
		switch {
		case !names.MatchString(name):
			faults = append(faults, fmt.Sprintf("catalogue %d is named %q: use up to 64 letters, digits, dots, dashes and underscores, beginning with a letter or digit", i+1, name))
		case seen[name]:
			faults = append(faults, fmt.Sprintf("catalogue %q is configured twice: give each a name of its own", name))
		}
		seen[name] = true
		if s.Refresh < 0 || s.Refresh > 0 && s.Refresh < time.Second {
			faults = append(faults, fmt.Sprintf("catalogue %q is to be read again every %s: make it a second at least, or 0 for never", name, s.Refresh))
		}
	}
	return faults
}

// inOrder sorts sources by what comes first: the greater priority, then the name.
func inOrder(sources []Source) []Source {
	return slices.SortedFunc(slices.Values(sources), func(a, b Source) int {
		return cmp.Or(cmp.Compare(b.Priority, a.Priority), cmp.Compare(a.Name(), b.Name()))
	})
}
