package conformance_test

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/sdk/conformance"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// rolls is a catalogue of one hose, with a way to be wrong.
type rolls struct {
	wrong     string
	read      int
	described int
}

func (r *rolls) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	d := &cataloguev1.DescribeResponse{Title: "Hoses (invented)", Revision: "1", Currency: "EUR",
		Kinds: []equipmentv1.ItemKind{equipmentv1.ItemKind_ITEM_KIND_HOSE}}
	switch r.wrong {
	case "title":
		d.Title = ""
	case "kinds":
		d.Kinds = nil
	case "claims":
		d.Capabilities = []cataloguev1.Capability{cataloguev1.Capability_CAPABILITY_LIVE_STOCK}
	case "revision":
		r.described++
		d.Revision = fmt.Sprint(r.described)
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

// counter is the same with live answers.
type counter struct{ rolls }

func (c *counter) Stock(_ context.Context, numbers []string) ([]*cataloguev1.StockLevel, error) {
	level := &cataloguev1.StockLevel{ItemNumber: "H", OnHand: proto.Int32(0)}
	switch c.wrong {
	case "stock of a stranger":
		level.ItemNumber = numbers[0]
	case "stock below nothing":
		level.OnHand = proto.Int32(-2)
	case "stock fails":
		return nil, errors.New("the till is closed")
	case "stock of nothing":
		return nil, nil
	}
	return []*cataloguev1.StockLevel{level}, nil
}

func (c *counter) Prices(_ context.Context, customer string, numbers []string) ([]*cataloguev1.PriceQuote, error) {
	quote := &cataloguev1.PriceQuote{ItemNumber: "H", Price: proto.Float64(1.9)}
	switch {
	case c.wrong == "price unset":
		quote.Price = nil
	case c.wrong == "customer" && customer != "":
		return nil, errors.New("no such customer")
	}
	return []*cataloguev1.PriceQuote{quote}, nil
}

func TestGoodCatalogueConforms(t *testing.T) { conformance.Catalogue(t, &rolls{}) }

func TestCatalogueWithLiveAnswersConforms(t *testing.T) { conformance.Catalogue(t, &counter{}) }

const wrongVariable = "PONDWRIGHT_TEST_WRONG"

// TestWrong fails in a process of its own, which the next test starts.
func TestWrong(t *testing.T) {
	wrong := os.Getenv(wrongVariable)
	if wrong == "" {
		t.Skip("it is to fail, and is run by TestWrongCatalogueIsFound")
	}
	if rest, live := strings.CutPrefix(wrong, "live "); live {
		conformance.Catalogue(t, &counter{rolls{wrong: rest}})
		return
	}
	conformance.Catalogue(t, &rolls{wrong: wrong})
}

func TestWrongCatalogueIsFound(t *testing.T) {
	self, err := os.Executable()
	assert.NoError(t, err)
	for wrong, says := range map[string]string{
		"title":    "describes itself in a way that cannot be used: title",
		"kinds":    `item "H" is ITEM_KIND_HOSE, which Describe does not name`,
		"item":     `item "H", number 0 in the stream: hose: tail_bore_mm`,
		"changes":  `item "H" changed and the revision "1" did not`,
		"empty":    "there is no item in it",
		"claims":   "CheckStock is claimed in Describe and fails",
		"revision": `and no item changed: make it of the items`,

		"live stock of a stranger": `CheckStock: levels[0].item_number: "no such number (conformance)" was not asked for`,
		"live stock below nothing": "CheckStock: levels[0].on_hand: must be greater than or equal to 0",
		"live stock fails":         "CheckStock is claimed in Describe and fails: rpc error: code = FailedPrecondition desc = the till is closed",
		"live stock of nothing":    "CheckStock: tells of none of the items in the catalogue",
		"live price unset":         "QuotePrices: quotes[0].price: value is required",
		"live customer":            "QuotePrices for a customer that does not exist",
	} {
		cmd := exec.Command(self, "-test.run=^TestWrong$")
		cmd.Env = append(os.Environ(), wrongVariable+"="+wrong)
		out, err := cmd.CombinedOutput()
		assert.Error(t, err, wrong)
		assert.Contains(t, string(out), says)
	}
}
