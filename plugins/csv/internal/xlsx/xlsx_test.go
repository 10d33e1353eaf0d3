package xlsx

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// workbookOf is the least a workbook of one sheet can be.
func workbookOf(t *testing.T, sheetData string) []byte {
	t.Helper()
	return archiveOf(t, map[string]string{
		"_rels/.rels":           `<Relationships><Relationship Id="a" Type="x/officeDocument" Target="book/w.xml"/></Relationships>`,
		"book/w.xml":            `<workbook xmlns:r="r"><sheets><sheet name="pumps" r:id="s1"/></sheets></workbook>`,
		"book/_rels/w.xml.rels": `<Relationships><Relationship Id="s1" Type="x/worksheet" Target="/deep/s.xml"/><Relationship Id="s2" Type="x/sharedStrings" Target="t.xml"/></Relationships>`,
		"book/t.xml":            `<sst><si><t>plain</t></si><si><r><t>two </t></r><r><t>runs</t></r><rPh><t>not this</t></rPh></si></sst>`,
		"deep/s.xml":            `<worksheet><sheetData>` + sheetData + `</sheetData></worksheet>`,
	})
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
	sheets, err := Read(workbookOf(t, `<row r="3"><c r="A3" t="s"><v>0</v></c><c r="C3" t="s"><v>1</v></c><c r="D3"><v>1.5E-2</v></c></row>
		<row><c t="b"><v>1</v></c><c t="b"><v>0</v></c><c t="e"><v>#N/A</v></c><c t="inlineStr"><is><t>in line</t></is></c><c t="str"><f>A1</f><v>result</v></c><c><f>A1</f></c><c><f>A1</f><v></v></c><c/></row>`))
	require.NoError(t, err)
	require.Len(t, sheets, 1)
	assert.Equal(t, "pumps", sheets[0].Name)
	assert.Equal(t, []Row{
		{3, []string{"plain", "", "two runs", "1.5E-2"}},
		{4, []string{"TRUE", "FALSE", "#N/A", "in line", "result", UnsolvedValue, UnsolvedValue, ""}},
	}, sheets[0].Rows)
}

func TestBrokenWorkbooks(t *testing.T) {
	for name, content := range map[string][]byte{
		"no archive":      []byte("pumps"),
		"no parts":        archiveOf(t, nil),
		"no such text":    workbookOf(t, `<row r="1"><c r="A1" t="s"><v>9</v></c></row>`),
		"far column":      workbookOf(t, `<row r="1"><c r="XFD1"><v>1</v></c></row>`),
		"out of order":    workbookOf(t, `<row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>1</v></c></row>`),
		"no reference":    workbookOf(t, `<row r="1"><c r="11"><v>1</v></c></row>`),
		"broken XML":      workbookOf(t, `<row r="1"><c r="A1">`),
		"unpacks too far": workbookOf(t, "<row>"+strings.Repeat(" ", maxPartBytes)+"</row>"),
		"own entities":    archiveOf(t, map[string]string{"_rels/.rels": `<!DOCTYPE a [<!ENTITY b "c">]><Relationships>&b;</Relationships>`}),
	} {
		_, err := Read(content)
		assert.Error(t, err, name)
	}
}

func TestColumnReferences(t *testing.T) {
	for ref, want := range map[string]int{"A1": 0, "Z9": 25, "AA1": 26, "AZ1": 51, "BA12": 52, "IV1": 255, "ZZZ1": maxColumns, "": maxColumns, "1": maxColumns} {
		assert.Equal(t, want, columnIndex(ref), ref)
	}
}

// Format codes as ECMA-376 part 1 writes them.
func TestDatesAreToldByTheirFormat(t *testing.T) {
	for _, code := range []string{"yyyy-mm-dd", "d/m/yy h:mm", "[h]:mm:ss", "[$-409]mmmm d, yyyy", "mm:ss.0", `"on "d mmm`} {
		assert.True(t, isDateCode(code), code)
	}
	for _, code := range []string{"General", "0.00", "#,##0.00", "0.00E+00", `0.0 "days"`, `0\ \m\m`, "[Red]-0.0", "[$€-407] #,##0.00", "_-* #,##0.00_-", "0%", "@"} {
		assert.False(t, isDateCode(code), code)
	}
	assert.True(t, isBuiltInDate(14))
	assert.False(t, isBuiltInDate(4))
}
