package wire

import (
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"slices"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc/defect"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// partBytes is the size of one part of a cursor, as the proto bounds it.
const partBytes = 1 << 20

// CursorParts turns the state of a check into the parts of a cursor.
func CursorParts(s defect.State, version string) ([]*pb.CurveCursor, error) {
	bytes, err := proto.Marshal(cursorState(s, version))
	if err != nil {
		return nil, fmt.Errorf("write cursor: %w", err)
	}
	var parts []*pb.CurveCursor
	for part := range slices.Chunk(bytes, partBytes) {
		parts = append(parts, &pb.CurveCursor{CurveCount: int32(s.Place), Part: part})
	}
	parts[len(parts)-1].Last = true
	return parts, nil
}

func cursorState(s defect.State, version string) *pb.CurveCursorState {
	m := &pb.CurveCursorState{
		EngineVersion: version, Place: int32(s.Place), Catalogue: curveSketch("", s.Catalogue), Imprints: &pb.CurveImprints{},
		ItemNumbers: s.Numbers, ItemPlaces: s.Places,
		Counts: &pb.CurveCounts{
			CurveCount: int32(s.Counts.Curves), SoundCount: int32(s.Counts.Sound), Defects: defectCounts(s.Counts.Defects),
			Efficiency: s.Counts.Efficiency, Speeds: s.Counts.Speeds, Cover: s.Counts.Cover, Outliers: outliers(s.Counts.Outliers),
			Least: s.Counts.Least[:], Greatest: s.Counts.Most[:],
		},
	}
	for _, n := range s.Counts.Worst {
		m.Counts.Worst = append(m.Counts.Worst, int32(n))
	}
	for _, name := range slices.Sorted(maps.Keys(s.Series)) {
		m.Series = append(m.Series, curveSketch(name, s.Series[name]))
	}
	for _, i := range s.Imprints {
		to := m.Imprints
		to.Places, to.PointCounts, to.Names = append(to.Places, i.Place), append(to.PointCounts, i.Points), append(to.Names, i.Name)
		to.Flows, to.Heads, to.Powers = append(to.Flows, i.Flow), append(to.Heads, i.Head), append(to.Powers, i.Power)
		for _, x := range append(i.Flows[:], i.Heads[:]...) {
			to.Shapes = binary.LittleEndian.AppendUint16(to.Shapes, x)
		}
	}
	return m
}

func curveSketch(series string, s defect.Sketch) *pb.CurveSketch {
	return &pb.CurveSketch{Series: series, Merits: s.Merits, Speeds: s.Speeds}
}

var errCursor = errors.New("is no cursor of this engine, or one of another version; check the curves from the start")

// Cursor reads the joined parts of a cursor.
func Cursor(bytes []byte, version string) (defect.State, error) {
	m := new(pb.CurveCursorState)
	if err := proto.Unmarshal(bytes, m); err != nil || m.GetEngineVersion() != version {
		return defect.State{}, errCursor
	}
	i := m.GetImprints()
	n := len(i.GetPlaces())
	const shape = 2 * 2 * defect.ImprintPoints
	if len(i.GetPointCounts()) != n || len(i.GetNames()) != n || len(i.GetFlows()) != n || len(i.GetHeads()) != n || len(i.GetPowers()) != n || len(i.GetShapes()) != shape*n ||
		len(m.GetCounts().GetLeast()) != 2 || len(m.GetCounts().GetGreatest()) != 2 {
		return defect.State{}, errCursor
	}
	s := defect.State{
		Place: int(m.GetPlace()), Catalogue: sketchOf(m.GetCatalogue()), Series: map[string]defect.Sketch{},
		Numbers: m.GetItemNumbers(), Places: m.GetItemPlaces(), Counts: countsOf(m.GetCounts()),
	}
	for _, k := range m.GetSeries() {
		s.Series[k.GetSeries()] = sketchOf(k)
	}
	for j := range n {
		made := defect.Imprint{
			Place: i.Places[j], Points: i.PointCounts[j], Name: i.Names[j], Flow: i.Flows[j], Head: i.Heads[j], Power: i.Powers[j],
		}
		at := i.Shapes[shape*j:]
		for k := range defect.ImprintPoints {
			made.Flows[k] = binary.LittleEndian.Uint16(at[2*k:])
			made.Heads[k] = binary.LittleEndian.Uint16(at[2*(defect.ImprintPoints+k):])
		}
		s.Imprints = append(s.Imprints, made)
	}
	return s, nil
}

func sketchOf(k *pb.CurveSketch) defect.Sketch {
	return defect.Sketch{Merits: k.GetMerits(), Speeds: k.GetSpeeds()}
}

func countsOf(m *pb.CurveCounts) defect.Counts {
	c := defect.Counts{
		Curves: int(m.GetCurveCount()), Sound: int(m.GetSoundCount()), Defects: map[string]int{},
		Efficiency: m.GetEfficiency(), Speeds: m.GetSpeeds(), Cover: m.GetCover(),
		Least: [2]float64(m.GetLeast()), Most: [2]float64(m.GetGreatest()),
	}
	for _, n := range m.GetWorst() {
		c.Worst = append(c.Worst, int(n))
	}
	for _, d := range m.GetDefects() {
		c.Defects[d.GetCode()] = int(d.GetCurveCount())
	}
	for _, o := range m.GetOutliers() {
		c.Outliers = append(c.Outliers, defect.Outlier{
			Place: int(o.GetPlace()), Number: o.GetItemNumber(), Series: o.GetSeries(), Figure: o.GetFigure(), Value: o.GetValue(), Median: o.GetMedian(), Deviations: o.GetDeviations(),
		})
	}
	return c
}
