package chart

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// DefaultWidth of a picture in its own units, of which a letter is 11 high. It is that of a phone, where the letters then come out
// as large as they are drawn; wider pages enlarge the whole.
const DefaultWidth = 400

// drawn runs what draws on a canvas and keeps it as the inside of an SVG element.
func drawn(width, height float64, paint func(draw.Canvas)) (string, error) {
	canvas := vgsvg.NewWith(vgsvg.UseWH(vg.Points(width), vg.Points(height)))
	paint(draw.New(canvas))
	var out bytes.Buffer
	if _, err := canvas.WriteTo(&out); err != nil {
		return "", fmt.Errorf("draw: %w", err)
	}
	return inner(out.String()), nil
}

var (
	styled  = regexp.MustCompile(`\s*style="([^"]*)"`)
	between = regexp.MustCompile(`>\s+<`)
)

// inner takes the library's document out of its root element, which has sizes in points, and turns each style attribute into
// attributes of presentation: a page that forbids inline styles would otherwise lose every line of the drawing.
func inner(document string) string {
	_, document, _ = strings.Cut(document, "<svg")
	_, document, _ = strings.Cut(document, ">")
	document, _, _ = strings.Cut(document, "</svg>")
	document = styled.ReplaceAllStringFunc(document, func(attribute string) string {
		var b strings.Builder
		for declaration := range strings.SplitSeq(styled.FindStringSubmatch(attribute)[1], ";") {
			name, value, ok := strings.Cut(strings.TrimSpace(declaration), ":")
			switch {
			case !ok || strings.HasPrefix(name, "font-") && name != "font-size" && name != "font-weight" || value == "normal":
			case value == "#000000":
				fmt.Fprintf(&b, ` %s="currentColor"`, name)
			default:
				fmt.Fprintf(&b, ` %s="%s"`, name, value)
			}
		}
		return b.String()
	})
	return strings.TrimSpace(between.ReplaceAllString(document, "><"))
}
