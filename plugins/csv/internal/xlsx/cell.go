package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
	"github.com/xuri/nfp"
)

// text is what a cell means, of which the stream has the stored form.
func (r reader) text(cell, streamed string) (string, error) {
	stored, err := r.file.GetCellValue(r.sheet, cell)
	switch {
	case err != nil:
		return "", err
	case streamed == "":
		return r.emptyText(cell, stored)
	case stored != streamed:
		return "", fmt.Errorf("reads as %q and as %q: its row or the cells in it are not in order, or it is merged with others", streamed, stored)
	}
	kind, err := r.file.GetCellType(r.sheet, cell)
	if err != nil {
		return "", err
	}
	switch kind {
	case excelize.CellTypeBool:
		return strings.ToUpper(strconv.FormatBool(strings.TrimSpace(streamed) == "1")), nil
	case excelize.CellTypeUnset, excelize.CellTypeNumber:
		date, err := r.isDate(cell)
		if date {
			return Date, err
		}
		return streamed, err
	}
	return streamed, nil
}

// emptyText tells a cell that is empty from a formula that was never worked out. Of merged cells all but the first are empty in the
// stream, and have the value of the first when they are asked for one by one.
func (r reader) emptyText(cell, stored string) (string, error) {
	formula, err := r.file.GetCellFormula(r.sheet, cell)
	if formula != "" && stored == "" {
		return UnsolvedValue, err
	}
	return "", err
}

// isDate says whether a number is shown as a date or a time. A spreadsheet keeps those as a number of days and tells them by
// their format alone. A cell that a program has taken for a date ("3-2" for a range, "1.5" in some countries)
// would otherwise read as a number of tens of thousands.
func (r reader) isDate(cell string) (bool, error) {
	id, err := r.file.GetCellStyle(r.sheet, cell)
	if err != nil {
		return false, err
	}
	date, known := r.dates[id]
	if known {
		return date, nil
	}
	if style, err := r.file.GetStyle(id); err == nil { // where there is no such style, a number is shown as one
		date = isBuiltInDate(style.NumFmt) || style.CustomNumFmt != nil && isDateCode(*style.CustomNumFmt)
	}
	r.dates[id] = date
	return date, nil
}

// isBuiltInDate knows the formats that have a number and no code in the file (ECMA-376 part 1, 18.8.30, from memory).
func isBuiltInDate(id int) bool {
	return 14 <= id && id <= 22 || 27 <= id && id <= 36 || 45 <= id && id <= 47 || 50 <= id && id <= 58 || 71 <= id && id <= 81
}

// isDateCode says whether a format code shows a date or a time.
func isDateCode(code string) bool {
	parser := nfp.NumberFormatParser()
	for _, section := range parser.Parse(code) {
		for _, token := range section.Items {
			if token.TType == nfp.TokenTypeDateTimes || token.TType == nfp.TokenTypeElapsedDateTimes {
				return true
			}
		}
	}
	return false
}
