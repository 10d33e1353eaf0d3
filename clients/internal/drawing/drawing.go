// Package drawing makes scaled drawings of a pond as SVG: the plan of a bay with its shelves, and the section along it. One unit of
// a drawing is a millimetre of paper, so that it is to its scale when it is printed at 100 %, and a bar of metres tells the scale
// at any other size. Shades of one hue are told apart in greyscale, each has its name in the key, and beside the drawing the same
// is said in a sentence and in a table. The same drawing is always the same bytes.
//
// A drawing has no style attribute and no script, so that a strict content security policy lets it pass.
package drawing

import (
	"errors"
	"fmt"
	"html/template"
	"math"
	"strings"
)

// A Drawing is a picture to scale and its equivalents in words.
type Drawing struct {
	Title    string
	Sentence string
	Table    Table
	// Scale is how many times smaller than the pond it is on paper.
	Scale float64

	width, height float64 // mm
	body          string
}

// A Table says in figures what was drawn, for setting out with a tape.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]string
}

// A Point in metres, in the coordinates the pond was measured in: x to the right of the drawing, y up.
type Point struct{ X, Y float64 }

// ErrNothing is the error of a drawing without anything to draw.
var ErrNothing = errors.New("nothing to draw")

// SVG is the drawing with its title and description, for a page on which no other element has an id that begins like this one.
func (d Drawing) SVG(id string) template.HTML {
	esc := template.HTMLEscapeString
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" `+
		`aria-labelledby="%s-title %s-desc" class="scaled" fill="none" stroke="none" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif" `+
		`font-size="%s">`, mm(d.width), mm(d.height), mm(d.width), mm(d.height), esc(id), esc(id), mm(letter))
	fmt.Fprintf(&b, `<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`, esc(id), esc(d.Title), esc(id), esc(d.Sentence))
	b.WriteString(strings.ReplaceAll(d.body, ownID, esc(id)))
	b.WriteString("</svg>\n")
	return template.HTML(b.String()) // every text in it was escaped
}

// ownID stands for the drawing's id until it is placed on a page.
const ownID = "\x00"

func finite(title string, numbers ...float64) error {
	for _, x := range numbers {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("drawing %q: %v cannot be drawn", title, x)
		}
	}
	return nil
}
