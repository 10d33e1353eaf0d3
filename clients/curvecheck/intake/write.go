package intake

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"google.golang.org/protobuf/encoding/protojson"

	csvcatalogue "example.com/pondwright/plugins/csv"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// CorrectedPath is where the corrected copy of a file goes: beside it, and as CSV where it was a workbook.
func CorrectedPath(path string) string {
	ext := filepath.Ext(path)
	base := strings.TrimSuffix(path, ext)
	if strings.EqualFold(ext, ".xlsx") {
		ext = ".csv"
	}
	return base + ".corrected" + ext
}

// WriteCorrected writes a file again with some curves changed, by their place in it. It refuses to overwrite anything. Places that the
// layout cannot hold the change of are given back: flows under fixed heads.
func WriteCorrected(path, to string, columns map[string]string, mended map[int]*equipmentv1.Pump) (left []int, err error) {
	r, err := Open(path, nil, columns)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, r.Close()) }()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return nil, fmt.Errorf("%s is there already: move it away first, since nothing is written over", to)
	}
	if err != nil {
		return nil, err
	}
	if r.lines != nil {
		err = r.copyLines(out, mended)
	} else {
		left, err = r.copyTable(out, mended)
	}
	return left, errors.Join(err, out.Close())
}

func (r *Reader) copyLines(out io.Writer, mended map[int]*equipmentv1.Pump) error {
	for place := 0; ; place++ {
		item, err := r.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if len(item.Problems) > 0 {
			return fmt.Errorf("%s: it cannot be copied", item.Problems[0])
		}
		if p := mended[place]; p != nil {
			item.Message.Pump = p
		}
		text, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(item.Message)
		if err == nil {
			_, err = fmt.Fprintf(out, "%s\n", text)
		}
		if err != nil {
			return err
		}
	}
}

func (r *Reader) copyTable(out io.Writer, mended map[int]*equipmentv1.Pump) (left []int, err error) {
	t := r.table
	w := csv.NewWriter(out)
	w.Comma = t.manner.separator
	if err := w.Write(t.header.Cells); err != nil {
		return nil, err
	}
	for place := 0; ; place++ {
		row, err := t.row()
		if errors.Is(err, io.EOF) {
			w.Flush()
			return left, w.Error()
		}
		if err != nil {
			return left, err
		}
		_, all, err := t.gather(row)
		if err != nil {
			return left, err
		}
		if p := mended[place]; p != nil {
			changed, ok := t.changed(all, p)
			if !ok {
				left = append(left, place)
			} else {
				all = changed
			}
		}
		for _, one := range all {
			if err := w.Write(one.Cells); err != nil {
				return left, err
			}
		}
	}
}

// changed writes a pump into the rows it had.
func (t *table) changed(all []csvcatalogue.Row, p *equipmentv1.Pump) ([]csvcatalogue.Row, bool) {
	switch t.layout {
	case long:
		var made []csvcatalogue.Row
		for i, point := range p.GetCurve() {
			made = append(made, t.withPoint(all[min(i, len(all)-1)], point))
		}
		return made, true
	case wide:
		row := csvcatalogue.Row{Number: all[0].Number, Cells: slices.Clone(all[0].Cells)}
		order := map[int]int{}
		for _, c := range t.columns {
			if c.point > 0 && c.name == colFlow {
				order[c.point] = 0
			}
		}
		for i, n := range slices.Sorted(maps.Keys(order)) {
			order[n] = i
		}
		if len(p.GetCurve()) > len(order) {
			return nil, false
		}
		for _, c := range t.columns {
			switch {
			case c.point > 0:
				t.set(&row, c, valueAt(p.GetCurve(), order[c.point], c.name))
			case c.name == colPower && p.PowerW != nil:
				t.set(&row, c, p.PowerW)
			}
		}
		return []csvcatalogue.Row{row}, true
	case points:
		row := csvcatalogue.Row{Number: all[0].Number, Cells: slices.Clone(all[0].Cells)}
		for _, c := range t.columns {
			switch {
			case c.name == colPoints:
				grow(&row, c.index)
				row.Cells[c.index] = pairText(p.GetCurve())
			case c.name == colPower && p.PowerW != nil:
				t.set(&row, c, p.PowerW)
			}
		}
		return []csvcatalogue.Row{row}, true
	}
	return nil, false
}

func (t *table) withPoint(like csvcatalogue.Row, point *equipmentv1.CurvePoint) csvcatalogue.Row {
	row := csvcatalogue.Row{Number: like.Number, Cells: slices.Clone(like.Cells)}
	for _, c := range t.columns {
		switch c.name {
		case colFlow, colHead:
			t.set(&row, c, valueAt([]*equipmentv1.CurvePoint{point}, 0, c.name))
		case colPower:
			if point.PowerW != nil {
				t.set(&row, c, point.PowerW)
			}
		}
	}
	return row
}

func valueAt(curve []*equipmentv1.CurvePoint, i int, name string) *float64 {
	if i >= len(curve) {
		return nil
	}
	switch name {
	case colFlow:
		return curve[i].FlowLPerH
	case colHead:
		return curve[i].HeadM
	default:
		return curve[i].PowerW
	}
}

func (t *table) set(row *csvcatalogue.Row, c column, x *float64) {
	grow(row, c.index)
	if x == nil {
		row.Cells[c.index] = ""
		return
	}
	text := strconv.FormatFloat(c.back(*x), 'f', -1, 64)
	if t.manner.decimalComma {
		text = strings.Replace(text, ".", ",", 1)
	}
	row.Cells[c.index] = text
}

func grow(row *csvcatalogue.Row, i int) {
	for len(row.Cells) <= i {
		row.Cells = append(row.Cells, "")
	}
}

func pairText(curve []*equipmentv1.CurvePoint) string {
	var parts []string
	for _, p := range curve {
		part := strconv.FormatFloat(p.GetFlowLPerH(), 'f', -1, 64) + "," + strconv.FormatFloat(p.GetHeadM(), 'f', -1, 64)
		if p.PowerW != nil {
			part += "," + strconv.FormatFloat(p.GetPowerW(), 'f', -1, 64)
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "; ")
}
