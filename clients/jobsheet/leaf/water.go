package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
)

// water is how much there is, bay by bay, and how it goes with the level.
func (l *leaf) water() (part, error) {
	w := l.plan.GetWater()
	p := part{ID: "water", Title: "The water"}
	if w == nil {
		return p, nil
	}
	t := columns("Bays at the water line", "Bay", ">volume, L", ">surface, m²", ">edge, m", ">length, m", ">width, m", ">depth, m", ">mean depth, m")
	for i, b := range w.GetPond().GetBays() {
		name := b.GetName()
		if name == "" {
			name = fmt.Sprintf("bay %d", i+1)
		}
		t.row(name, figure.Number(b.GetVolumeL()), figure.Number(b.GetSurfaceM2()), figure.Number(b.GetPerimeterM()), figure.Number(b.GetLengthM()),
			figure.Number(b.GetWidthM()), figure.Number(b.GetDepthM()), figure.Number(b.GetMeanDepthM()))
	}
	pond := w.GetPond()
	t.Foot = []string{"together", figure.Number(pond.GetVolumeL()), figure.Number(pond.GetSurfaceM2()), "", "", "", "", figure.Number(pond.GetMeanDepthM())}
	p.Blocks = append(p.Blocks, t.block("")...)
	rows := []pair{{"To dose by", figure.Volume(pond.GetNetVolumeL())}}
	if pond.GetDisplacedL() > 0 {
		rows = append(rows, pair{"Taken up by stone and baskets", figure.With(pond.GetDisplacedL(), "L")})
	}
	if box := pond.GetBoxVolumeL(); box > 1.05*pond.GetVolumeL() {
		rows = append(rows, pair{"By the box rule", figure.With(box, "L") + ", length times width times depth: that misleads"})
	}
	levels := w.GetLevels()
	if levels != nil && levels.SpareL != nil {
		rows = append(rows, pair{"Until it runs over", figure.With(levels.GetSpareL(), "L") + " above the water line"})
	}
	if u := levels.GetTopUp(); u != nil {
		rows = append(rows, pair{"Top up when it has fallen", fmt.Sprintf("%s to %s, which is %s to %s (common practice)",
			figure.Number(u.GetSoonMm()), figure.With(u.GetLateMm(), "mm"), figure.Number(u.GetSoonL()), figure.With(u.GetLateL(), "L"))})
	}
	p.Blocks = append(p.Blocks, block{Rows: rows})
	var left []chart.Point
	for _, level := range levels.GetLevels() {
		left = append(left, chart.Point{X: level.GetFallenM(), Y: level.GetVolumeL()})
	}
	picture, err := chart.Lines{
		Title: "Water left as the level falls", X: chart.Axis{Name: "level below full", Unit: "m"}, Y: chart.Axis{Name: "water left", Unit: "L"},
		Lines: []chart.Line{{Name: "water left", Points: left}}, Height: 190,
	}.Draw()
	if p.Blocks, err = withPicture(p.Blocks, picture, err, "level-volume", ""); err != nil {
		return p, err
	}
	p.Blocks = append(p.Blocks, l.grave(w.GetFindings(), levels.GetFindings())...)
	return p, nil
}
