package leaf

import (
	"strings"
	"time"

	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// cleanWords cleans every text of a message in place.
func cleanWords(m protoreflect.Message) {
	m.Range(func(fd protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		switch {
		case fd.IsMap():
		case fd.IsList():
			for i := range v.List().Len() {
				switch one := v.List().Get(i); {
				case fd.Message() != nil:
					cleanWords(one.Message())
				case fd.Kind() == protoreflect.StringKind:
					v.List().Set(i, protoreflect.ValueOfString(page.Clean(one.String())))
				}
			}
		case fd.Message() != nil:
			cleanWords(v.Message())
		case fd.Kind() == protoreflect.StringKind:
			m.Set(fd, protoreflect.ValueOfString(page.Clean(v.String())))
		}
		return true
	})
}

// sentence begins with a capital and ends with a stop.
func sentence(words string) string {
	words = capital(strings.TrimSpace(words))
	if words == "" || strings.ContainsAny(words[len(words)-1:], ".!?") {
		return words
	}
	return words + "."
}

func capital(words string) string {
	if strings.HasPrefix(words, "pH") {
		return words
	}
	for i, c := range words {
		return strings.ToUpper(string(c)) + words[i+len(string(c)):]
	}
	return words
}

// day writes 2027-04-12 as "Mon 12 Apr 2027". What is no date is left as it is.
func day(iso string) string {
	at, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return strings.ReplaceAll(at.Format("Mon 2 Jan 2006"), " ", figure.Space)
}

// dayOfYear writes 04-12 as "12 April".
func dayOfYear(iso string) string {
	at, err := time.Parse("2006-01-02", "2028-"+iso) // a leap year, so that 29 February is read too
	if err != nil {
		return iso
	}
	return at.Format("2") + figure.Space + at.Format("January")
}

func month(m int32) string { return time.Month(m).String() }

func quantity(q *pb.Quantity) string {
	if q == nil {
		return ""
	}
	if q.GetUnit() == "" {
		return figure.Number(q.GetValue())
	}
	return figure.With(q.GetValue(), q.GetUnit())
}

// hours writes a time in the unit it is thought of in.
func hours(h float64) string {
	switch {
	case h <= 0:
		return "–"
	case h < 1:
		return figure.With(60*h, "min")
	case h >= 72:
		return figure.With(h/24, "days")
	}
	return figure.With(h, "h")
}

func span(low, high float64, unit string) string {
	if low == high {
		return figure.With(low, unit)
	}
	return figure.Number(low) + " to " + figure.With(high, unit)
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}
