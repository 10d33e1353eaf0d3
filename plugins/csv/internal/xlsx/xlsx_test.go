package xlsx

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// workbookOf is about the least a workbook of one sheet can be, with its parts where programs put them.
func workbookOf(t *testing.T, sheetData string) []byte {
	t.Helper()
	return archiveOf(t, parts(sheetData))
}

func parts(sheetData string) map[string]string {
	const (
		relations = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
		types     = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
		main      = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	)
	return map[string]string{
		"[Content_Types].xml":        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":                relations + `<Relationship Id="a" Type="` + types + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook ` + main + ` xmlns:r="` + types + `"><sheets><sheet name="pumps" sheetId="1" r:id="s1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relations + `<Relationship Id="s1" Type="` + types + `/worksheet" Target="/xl/worksheets/sheet1.xml"/><Relationship Id="s2" Type="` + types + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		"xl/sharedStrings.xml":       `<sst ` + main + `><si><t>plain</t></si><si><r><t>two </t></r><r><t>runs</t></r><rPh><t>not this</t></rPh></si></sst>`,
		"xl/styles.xml":              `<styleSheet ` + main + `><numFmts><numFmt numFmtId="170" formatCode="d\.m\."/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="170"/><xf numFmtId="2"/></cellXfs></styleSheet>`,
		"xl/worksheets/sheet1.xml":   `<worksheet ` + main + `><sheetData>` + sheetData + `</sheetData></worksheet>`,
	}
}

// with are the parts of a workbook whose one cell has a text, one of them another.
func with(name, content string) map[string]string {
	p := parts(`<row r="1"><c r="A1" t="s"><v>0</v></c></row>`)
	p[name] = content
	return p
}

func readAll(content []byte) ([]Sheet, error) {
	return Read(content, func(string) bool { return true })
}

func archiveOf(t *testing.T, parts map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, content := range parts {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(content))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

func TestCellsOfEveryType(t *testing.T) {
	sheets, err := readAll(workbookOf(t, `<row r="3"><c r="A3" t="s"><v>0</v></c><c r="C3" t="s"><v>1</v></c><c r="D3"><v>1.5E-2</v></c></row>
		<row><c t="b"><v>1</v></c><c t="b"><v>0</v></c><c t="e"><v>#N/A</v></c><c t="inlineStr"><is><t>in line</t></is></c><c t="str"><f>A1</f><v>result</v></c><c><f>A1</f></c><c><f>A1</f><v></v></c><c/></row>`))
	require.NoError(t, err)
	require.Len(t, sheets, 1)
	assert.Equal(t, "pumps", sheets[0].Name)
	assert.Equal(t, []Row{
		{3, []string{"plain", "", "two runs", "1.5E-2"}},
		{4, []string{"TRUE", "FALSE", "#N/A", "in line", "result", UnsolvedValue, UnsolvedValue}},
	}, sheets[0].Rows)
}

// A number shown as a date is one. A text is a text in any format, and a style that is not there shows a number as it is.
func TestDatesAreNotNumbers(t *testing.T) {
	sheets, err := readAll(workbookOf(t, `<row r="1"><c r="A1" s="1"><v>45000</v></c><c r="B1" s="2" t="n"><v> 45000 </v></c><c r="C1" s="3"><v>45000</v></c>
		<c r="D1" s="99"><v>45000</v></c><c r="E1" t="d"><v>2026-01-01</v></c><c r="F1" t="s" s="1"><v>0</v></c><c r="G1" t="str" s="1"><v>7</v></c><c r="H1" s="1"/></row>`))
	require.NoError(t, err)
	assert.Equal(t, []string{Date, Date, "45000", "45000", "2026-01-01", "plain", "7"}, sheets[0].Rows[0].Cells)
}

// Of merged cells the first has the value. The others are empty, whatever it is.
func TestMergedCells(t *testing.T) {
	sheets, err := readAll(workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c><c r="B1"/><c r="C1"><v>3</v></c></row><row r="2"><c r="A2"><f>A1</f></c></row>
		<row r="3"><c r="A3"><f>A1</f><v>1</v></c><c r="C3"><v>5</v></c></row></sheetData>
		<mergeCells><mergeCell ref="A1:B1"/><mergeCell ref="A2:C2"/><mergeCell ref="A3:B3"/></mergeCells><sheetData>`))
	require.NoError(t, err)
	assert.Equal(t, []Row{{1, []string{"1", "", "3"}}, {2, []string{UnsolvedValue}}, {3, []string{"1", "", "5"}}}, sheets[0].Rows)
}

func TestOnlyWhatIsWantedIsRead(t *testing.T) {
	sheets, err := Read(workbookOf(t, `<row r="1"><c r="XFD1"><v>1</v></c></row>`), func(name string) bool { return name != "pumps" })
	require.NoError(t, err)
	assert.Empty(t, sheets)
}

func TestBrokenWorkbooks(t *testing.T) {
	for name, content := range map[string][]byte{
		"no archive":                []byte("pumps"),
		"no parts":                  archiveOf(t, nil),
		"no such text":              workbookOf(t, `<row r="1"><c r="A1" t="s"><v>9</v></c></row>`),
		"no such text at the end":   workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c><c r="B1" t="s"><v>9</v></c></row>`),
		"far column":                workbookOf(t, `<row r="1"><c r="XFD1"><v>1</v></c></row>`),
		"out of order":              workbookOf(t, `<row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>1</v></c></row>`),
		"two values":                workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row>`),
		"rows in disorder":          workbookOf(t, `<row r="2"><c r="A2"><v>1</v></c></row><row r="1"><c r="A1"><v>2</v></c></row>`),
		"row twice":                 workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c></row><row r="1"><c r="A1"><v>2</v></c></row>`),
		"far row":                   workbookOf(t, `<row r="1048577"><c r="A1048577"><v>1</v></c></row>`),
		"hidden by merging":         workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row></sheetData><mergeCells><mergeCell ref="A1:B1"/></mergeCells><sheetData>`),
		"no such text among others": workbookOf(t, `<row r="1"><c r="A1"><v>1</v></c><c r="B1" t="s"><v>9</v></c><c r="C1"><v>1</v></c></row>`),
		"no sheets":                 archiveOf(t, with("xl/workbook.xml", `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`)),
		"no such sheet":             archiveOf(t, with("xl/_rels/workbook.xml.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"/>`)),
		"texts elsewhere":           archiveOf(t, with("xl/sharedStrings.xml", `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`)),
		"broken texts":              archiveOf(t, with("xl/sharedStrings.xml", `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si>`)),
		"no reference":              workbookOf(t, `<row r="1"><c r="11"><v>1</v></c></row>`),
		"broken XML":                workbookOf(t, `<row r="1"><c r="A1">`),
		"unpacks too far":           workbookOf(t, "<row>"+strings.Repeat(" ", maxUnpackedBytes)+"</row>"),
		"own entities":              archiveOf(t, with("xl/sharedStrings.xml", `<!DOCTYPE a [<!ENTITY b "c">]><sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>&b;</t></si></sst>`)),
	} {
		_, err := readAll(content)
		assert.Error(t, err, name)
	}
}

// Format codes as ECMA-376 part 1 writes them.
func TestDatesAreToldByTheirFormat(t *testing.T) {
	for _, code := range []string{"yyyy-mm-dd", "d/m/yy h:mm", "[h]:mm:ss", "[$-409]mmmm d, yyyy", "mm:ss.0", `"on "d mmm`} {
		assert.True(t, isDateCode(code), code)
	}
	for _, code := range []string{"General", "0.00", "#,##0.00", "0.00E+00", `0.0 "days"`, `0\ \m\m`, "[Red]-0.0", "[$€-407] #,##0.00", "_-* #,##0.00_-", "0%", "@", "", "[>100]0;0.0", `0.0_d*h`, "#\\ ?/?"} {
		assert.False(t, isDateCode(code), code)
	}
	for id, date := range map[int]bool{0: false, 4: false, 14: true, 22: true, 31: true, 40: false, 46: true, 49: false, 57: true, 62: false, 74: true} {
		assert.Equal(t, date, isBuiltInDate(id), id)
	}
}

// Whatever the parts hold, reading them does not panic.
func FuzzParts(f *testing.F) {
	f.Add(`<row r="3"><c r="A3" t="s"><v>0</v></c><c r="C3" s="1"><v>45000</v></c></row><row><c t="b"><v>1</v></c><c><f t="shared" si="0">A1</f></c></row>`, `d\.m\.`)
	f.Add(`<row r="1"><c r="A1" t="s"><v>-1</v></c><c r="B1" s="-1"><v>1</v></c></row><row r="1"><c r="A1" t="d"><v>2026-01-01</v></c></row>`, `[h]:mm;@`)
	f.Add(`</sheetData><mergeCells><mergeCell ref="A1:B2"/></mergeCells><sheetData><row r="2"><c r="B2" t="e"><v>#N/A</v></c></row>`, `0.0 "m"`)
	f.Fuzz(func(t *testing.T, sheetData, dateCode string) {
		p := parts(sheetData)
		p["xl/styles.xml"] = strings.Replace(p["xl/styles.xml"], `d\.m\.`, dateCode, 1)
		_, _ = readAll(archiveOf(t, p))
	})
}
