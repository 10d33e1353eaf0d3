package conformance_test

import (
	"context"
	"iter"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/sdk/conformance"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// rolls is a catalogue of one hose, with a way to be wrong.
type rolls struct {
	wrong string
	read  int
}

func (r *rolls) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	d := &cataloguev1.DescribeResponse{Title: "Hoses (invented)", Revision: "1", Currency: "EUR",
		Kinds: []equipmentv1.ItemKind{equipmentv1.ItemKind_ITEM_KIND_HOSE}}
	switch r.wrong {
	case "title":
		d.Title = ""
	case "kinds":
		d.Kinds = nil
	}
	return d, nil
}

func (r *rolls) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	r.read++
	return func(yield func(*equipmentv1.Item, error) bool) {
		hose := &equipmentv1.Hose{BoreMm: 25, Wall: equipmentv1.HoseWall_HOSE_WALL_SMOOTH, PricePerM: proto.Float64(2)}
		item := &equipmentv1.Item{ItemNumber: "H", Description: "hose", Kind: &equipmentv1.Item_Hose{Hose: hose}}
		switch r.wrong {
		case "item":
			hose.TailBoreMm = proto.Float64(30)
		case "changes":
			hose.PricePerM = proto.Float64(2 + float64(r.read))
		case "empty":
			return
		}
		yield(item, nil)
	}
}

func TestGoodCatalogueConforms(t *testing.T) { conformance.Catalogue(t, &rolls{}) }

const wrongVariable = "PONDWRIGHT_TEST_WRONG"

// TestWrong fails in a process of its own, which the next test starts.
func TestWrong(t *testing.T) {
	wrong := os.Getenv(wrongVariable)
	if wrong == "" {
		t.Skip("it is to fail, and is run by TestWrongCatalogueIsFound")
	}
	conformance.Catalogue(t, &rolls{wrong: wrong})
}

func TestWrongCatalogueIsFound(t *testing.T) {
	self, err := os.Executable()
	assert.NoError(t, err)
	for wrong, says := range map[string]string{
		"title":   "describes itself in a way that cannot be used: title",
		"kinds":   `item "H" is ITEM_KIND_HOSE, which Describe does not name`,
		"item":    `item "H", number 0 in the stream: hose: tail_bore_mm`,
		"changes": `item "H" changed and the revision "1" did not`,
		"empty":   "there is no item in it",
	} {
		cmd := exec.Command(self, "-test.run=^TestWrong$")
		cmd.Env = append(os.Environ(), wrongVariable+"="+wrong)
		out, err := cmd.CombinedOutput()
		assert.Error(t, err, wrong)
		assert.Contains(t, string(out), says)
	}
}
