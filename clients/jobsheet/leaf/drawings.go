package leaf

import (
	"errors"
	"fmt"
	"html/template"
	"math"
	"strings"

	"example.com/pondwright/clients/internal/drawing"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// drawings are plan and section of every bay.
func (l *leaf) drawings() (part, error) {
	p := part{ID: "drawings", Title: "Plan and section", Apart: true}
	for i, d := range l.plan.GetWater().GetDrawings() {
		name := d.GetBay()
		if name == "" {
			name = fmt.Sprintf("bay %d", i+1)
		}
		made, err := planOf(d, l.bay(i), "Plan, "+name).Draw()
		if err == nil {
			p.Blocks = append(p.Blocks, block{Heading: capital(name) + ", from above", Picture: drawn(made, fmt.Sprintf("plan-%d", i+1))})
		} else if !errors.Is(err, drawing.ErrNothing) {
			return p, err
		}
		made, err = l.sectionOf(i, d, "Section, "+name).Draw()
		if err == nil {
			p.Blocks = append(p.Blocks, block{Heading: capital(name) + ", cut along its length", Picture: drawn(made, fmt.Sprintf("section-%d", i+1))})
		} else if !errors.Is(err, drawing.ErrNothing) {
			return p, err
		}
	}
	if len(p.Blocks) > 1 && len(l.plan.GetWater().GetDrawings()) > 1 {
		p.Blocks = append(p.Blocks, text("Each bay is drawn in the coordinates it was measured in. How the bays lie to one another was not given.")...)
	}
	return p, nil
}

// bay is what the brief says of one; nothing where it has fewer.
func (l *leaf) bay(i int) *pb.Bay {
	if bays := l.job().GetBrief().GetPond().GetBays(); i < len(bays) {
		return bays[i]
	}
	return nil
}

func points(list []*pb.Point) []drawing.Point {
	made := make([]drawing.Point, len(list))
	for i, q := range list {
		made[i] = drawing.Point{X: q.GetXM(), Y: q.GetYM()}
	}
	return made
}

func bank(list []*pb.BankPoint) []drawing.BankPoint {
	made := make([]drawing.BankPoint, len(list))
	for i, b := range list {
		made[i] = drawing.BankPoint{Run: b.GetRunM(), Depth: b.GetDepthM()}
	}
	return made
}

func planOf(d *pb.BayDrawing, b *pb.Bay, title string) drawing.Plan {
	l := drawing.Plan{Title: title, Outline: points(d.GetOutline()), Depth: d.GetDepthM()}
	if len(b.GetContours()) == 0 && b.GetSoundings() == nil {
		l.Bank = bank(d.GetBank())
	}
	for _, c := range b.GetContours() {
		l.Contours = append(l.Contours, drawing.Contour{Depth: c.GetDepthM(), Line: points(c.GetPolygon().GetPoints())})
	}
	for _, s := range b.GetSoundings().GetTaken() {
		l.Soundings = append(l.Soundings, drawing.Sounding{At: drawing.Point{X: s.GetAt().GetXM(), Y: s.GetAt().GetYM()}, Depth: s.GetDepthM()})
	}
	return l
}

// usualFreeboard is what the engine takes where the brief says nothing of the rim.
const usualFreeboard = 0.05

func (l *leaf) sectionOf(i int, d *pb.BayDrawing, title string) drawing.Section {
	s := drawing.Section{Title: title, Length: d.GetLengthM(), Depth: d.GetDepthM(), Bank: bank(d.GetBank()), Freeboard: usualFreeboard, Raised: l.job().GetSite().GetRaisedM()}
	if b := l.bay(i); len(d.GetBank()) < 2 || len(b.GetContours()) > 0 || b.GetSoundings() != nil {
		s.Bank, s.Mean = meanBank(d), true
	}
	if e := l.job().GetLining().GetEdge(); e != nil && e.FreeboardM != nil {
		s.Freeboard = e.GetFreeboardM()
	}
	if i > 0 { // the pump is taken to stand in the first bay, and the fall to come back into it
		return s
	}
	if l.plan.GetKit().GetKit().GetPump() != nil {
		s.Pump = &drawing.Intake{Depth: max(s.Depth-0.15, s.Depth/2), Words: "pump in summer"}
		if w := l.job().GetWinterRoute(); w != nil {
			s.WinterPump = &drawing.Intake{Depth: min(0.3, s.Depth), Words: "pump in winter"}
			if w.IntakeDepthM != nil {
				s.WinterPump.Depth = min(w.GetIntakeDepthM(), s.Depth)
			}
		}
	}
	brief := l.job().GetBrief()
	if fall := brief.GetFall(); fall != nil {
		s.Fall = steps(l.job().GetFallBuild().GetSteps(), fall.GetHeightM())
	} else if brief.GetDelivery() != nil {
		s.Outlet = brief.GetDelivery().OutletHeightM
	}
	return s
}

// steps are the drops of the build from the top down, with what they leave of the fall's height above them.
func steps(build []*pb.CascadeStep, height float64) []float64 {
	const read = 0.005 // m, as heights are read
	rest := height
	var made []float64
	for _, s := range build {
		made = append(made, s.GetDropM())
		rest -= s.GetDropM()
	}
	switch {
	case len(made) == 0 || rest < -read:
		return []float64{height}
	case rest > read:
		return append([]float64{rest}, made...)
	}
	return made
}

// meanBank is the bank of a bay whose length and width shrink alike as it gets deeper.
func meanBank(d *pb.BayDrawing) []drawing.BankPoint {
	var made []drawing.BankPoint
	surface := 0.0
	for _, line := range d.GetLines() {
		surface = max(surface, line.GetAreaM2())
		if surface > 0 {
			made = append(made, drawing.BankPoint{Run: d.GetLengthM() / 2 * (1 - math.Sqrt(line.GetAreaM2()/surface)), Depth: line.GetDepthM()})
		}
	}
	return made
}

var drawnLayout = template.Must(template.New("drawn").Parse(
	`<figure class="drawn"><div class="scroll" tabindex="0" role="group" aria-label="{{.Title}}, to scale">{{.SVG}}</div><figcaption>{{.Sentence}}</figcaption></figure>
{{with .Table.Rows}}<table class="setting"><caption>{{$.Table.Caption}}</caption><thead><tr>{{range $.Table.Head}}<th scope="col">{{.}}</th>{{end}}</tr></thead>
<tbody>{{range .}}<tr>{{range $i, $cell := .}}{{if $i}}<td class="figures">{{$cell}}</td>{{else}}<th scope="row">{{$cell}}</th>{{end}}{{end}}</tr>
{{end}}</tbody></table>{{end}}
`))

// drawn is a drawing with its sentence below and its table beside.
func drawn(d drawing.Drawing, id string) template.HTML {
	var b strings.Builder
	// The only error is of writing, and a builder has none.
	_ = drawnLayout.Execute(&b, struct {
		drawing.Drawing
		SVG template.HTML
	}{d, d.SVG(id)})
	return template.HTML(b.String())
}
