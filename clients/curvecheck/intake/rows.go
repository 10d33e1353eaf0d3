package intake

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	csvcatalogue "example.com/pondwright/plugins/csv"
)

// rows reads a table row by row.
type rows interface {
	next() (csvcatalogue.Row, error) // io.EOF at the end
}

// text is a CSV file on its way in.
type text struct {
	bound *bounded
	csv   *csv.Reader
}

func (t *text) next() (csvcatalogue.Row, error) {
	for {
		t.bound.since = 0
		cells, err := t.csv.Read()
		if err != nil {
			return csvcatalogue.Row{}, explained(err)
		}
		line, _ := t.csv.FieldPos(0)
		if strings.TrimSpace(strings.Join(cells, "")) != "" {
			return csvcatalogue.Row{Number: line, Cells: cells}, nil
		}
	}
}

func explained(err error) error {
	var at *csv.ParseError
	if errors.As(err, &at) {
		return fmt.Errorf("line %d: a quote is not closed, or stands inside a cell; a quote inside a quoted cell is written twice", at.Line)
	}
	return err
}

// sheet is a workbook's sheet.
type sheet struct{ left []csvcatalogue.Row }

func (s *sheet) next() (csvcatalogue.Row, error) {
	if len(s.left) == 0 {
		return csvcatalogue.Row{}, io.EOF
	}
	r := s.left[0]
	s.left = s.left[1:]
	return r, nil
}

// manner is how a text writes its cells and numbers.
type manner struct {
	separator    rune
	decimalComma bool
}

var (
	withComma = regexp.MustCompile(`^-?[0-9]+,[0-9]+$`)
	withPoint = regexp.MustCompile(`^-?[0-9]+\.[0-9]+$`)
)

// mannerOf looks at the beginning of a text: the separator is what the first line has most of, and the decimal mark what its numbers have.
func mannerOf(in *bufio.Reader) (manner, error) {
	head, err := in.Peek(sample)
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, bufio.ErrBufferFull) {
		return manner{}, err
	}
	lines := bytes.Split(bytes.TrimLeft(head, "\r\n \t"), []byte("\n"))
	m := manner{separator: ','}
	most := 0
	for _, separator := range []rune{';', '\t', ',', '|'} {
		if n := bytes.Count(lines[0], []byte(string(separator))); n > most {
			m.separator, most = separator, n
		}
	}
	if m.separator == ',' {
		return m, nil
	}
	commas, points := 0, 0
	for _, line := range lines[1:] {
		for cell := range strings.SplitSeq(string(line), string(m.separator)) {
			cell = strings.Trim(strings.TrimSpace(cell), `"`)
			if withComma.MatchString(cell) {
				commas++
			}
			if withPoint.MatchString(cell) {
				points++
			}
		}
	}
	if commas > 0 && points > 0 {
		return m, fmt.Errorf("has numbers with a decimal comma (%d) and with a decimal point (%d): write all with one", commas, points)
	}
	m.decimalComma = commas > 0 || points == 0 && m.separator == ';'
	return m, nil
}

func (m manner) words() string {
	name := map[rune]string{',': "commas", ';': "semicolons", '\t': "tabs", '|': "upright strokes"}[m.separator]
	mark := "points"
	if m.decimalComma {
		mark = "commas"
	}
	return fmt.Sprintf("cells parted by %s, decimal %s", name, mark)
}

func newCSV(in io.Reader, m manner) *csv.Reader {
	reader := csv.NewReader(in)
	reader.Comma, reader.FieldsPerRecord = m.separator, -1
	return reader
}
