// Package chart draws the pictures that people look at: a pump's curve against what its circuit asks for, where the head goes,
// what stops the sets that lose, and how something goes over time. A picture is an SVG in one ink, so that it reads the same in
// greyscale, on dark ground and in print: lines are told apart by dashes and markers, bars by their filling, and each carries its
// name. Beside the drawing every picture says the same in a sentence and in a table. The same picture is always the same bytes.
//
// The SVG takes the colour of the text around it (currentColor), has no style attribute and no script, so that a strict content
// security policy lets it pass, and fills the width of its container.
package chart

import (
	"errors"
	"fmt"
	"html/template"
	"math"
	"strings"
)

// A Picture is a drawing and its equivalents in words.
type Picture struct {
	Title    string
	Sentence string // what there is to see
	Table    Table  // what was drawn

	width, height float64
	body          string
}

// A Table holds what a picture was drawn from, as text.
type Table struct {
	Head []string
	Rows [][]string
	// Note says what the rows leave out. Empty where they hold everything.
	Note string
}

// SVG is the drawing with its title and description, for a page on which no other element has an id that begins like this one.
func (p Picture) SVG(id string) template.HTML {
	esc := template.HTMLEscapeString
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" role="img" aria-labelledby="%s-title %s-desc" class="picture" `+
		`fill="currentColor" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif">`, p.width, p.height, esc(id), esc(id))
	fmt.Fprintf(&b, `<title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`, esc(id), esc(p.Title), esc(id), esc(p.Sentence))
	b.WriteString(p.body)
	b.WriteString("</svg>\n")
	return template.HTML(b.String()) // every text in it was escaped
}

var layout = template.Must(template.New("figure").Parse(
	`<figure class="picture">{{.SVG}}<figcaption><strong>{{.Title}}.</strong> {{.Sentence}}</figcaption>
<details><summary>{{.Title}}, as a table</summary>{{with .Table}}<div class="scroll" tabindex="0" role="group" aria-label="{{$.Title}}, table"><table>
<thead><tr>{{range .Head}}<th scope="col">{{.}}</th>{{end}}</tr></thead>
<tbody>{{range .Rows}}<tr>{{range $i, $cell := .}}{{if $i}}<td>{{$cell}}</td>{{else}}<th scope="row">{{$cell}}</th>{{end}}{{end}}</tr>
{{end}}</tbody></table></div>{{with .Note}}<p>{{.}}</p>{{end}}{{end}}</details></figure>
`))

// Figure is the drawing, the sentence and, folded away, the table.
func (p Picture) Figure(id string) (template.HTML, error) {
	var b strings.Builder
	err := layout.Execute(&b, struct {
		Picture
		SVG template.HTML
	}{p, p.SVG(id)})
	if err != nil {
		return "", fmt.Errorf("picture %q: %w", p.Title, err)
	}
	return template.HTML(b.String()), nil
}

// ErrNothing is the error of a picture without anything to see.
var ErrNothing = errors.New("nothing to draw")

// finite refuses what has no place on paper.
func finite(title string, numbers ...float64) error {
	for _, x := range numbers {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("picture %q: %v cannot be drawn", title, x)
		}
	}
	return nil
}
