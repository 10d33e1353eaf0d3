package xlsx

import (
	"regexp"
	"strings"
)

// A spreadsheet keeps a date as a number of days and tells it by its format alone. A cell that a program has taken for a date
// ("3-2" for a range, "1.5" in some countries) would otherwise read as a number of tens of thousands.

// readStyles notes which cell styles show a number as a date or a time.
func (w *workbook) readStyles(name string) error {
	var styles struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := w.part(name, &styles); err != nil {
		return err
	}
	own := make(map[int]bool, len(styles.Formats))
	for _, f := range styles.Formats {
		own[f.ID] = isDateCode(f.Code)
	}
	w.dates = make([]bool, len(styles.Cells))
	for i, c := range styles.Cells {
		date, known := own[c.Format]
		w.dates[i] = date || !known && isBuiltInDate(c.Format)
	}
	return nil
}

// isBuiltInDate knows the formats that have a number and no code in the file (ECMA-376 part 1, 18.8.30, from memory).
func isBuiltInDate(id int) bool {
	return 14 <= id && id <= 22 || 27 <= id && id <= 36 || 45 <= id && id <= 47 || 50 <= id && id <= 58
}

var (
	notCode = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.`) // texts, escaped letters, spacing, filling
	bracket = regexp.MustCompile(`\[[^\]]*\]`)         // colours, conditions, currencies
	elapsed = regexp.MustCompile(`(?i)\[(h+|m+|s+)\]`) // hours, minutes or seconds gone by
)

// isDateCode says whether a format code shows a date or a time.
func isDateCode(code string) bool {
	code = notCode.ReplaceAllString(code, "")
	if elapsed.MatchString(code) {
		return true
	}
	code = strings.ToLower(bracket.ReplaceAllString(code, ""))
	return code != "general" && strings.ContainsAny(code, "ydmhs")
}
