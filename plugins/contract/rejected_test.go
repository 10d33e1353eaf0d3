package contract_test

import (
	"strings"
	"testing"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Whatever a plugin says of an item it cannot give, what goes over the wire is within the bounds that the proto writes, and
// to bound it again changes nothing.
func TestWhatIsRejectedTravelsWithinTheBoundsOfTheProto(t *testing.T) {
	rules, err := protovalidate.New()
	require.NoError(t, err)
	text := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "two\nlines", "\xff", "\u00ad\u200b", strings.Repeat("ä", 2000)}))
	problem := rapid.Custom(func(t *rapid.T) contract.Problem {
		return contract.Problem{Field: text.Draw(t, "field"), Reason: text.Draw(t, "reason")}
	})
	rapid.Check(t, func(rt *rapid.T) {
		bounded := (&contract.Rejected{
			ItemNumber: text.Draw(rt, "number"), Description: text.Draw(rt, "description"),
			Problems: rapid.SliceOfN(problem, 0, 100).Draw(rt, "problems"),
		}).Bounded()
		assert.NoError(rt, rules.Validate(wireForm(bounded)))
		assert.Equal(rt, bounded, bounded.Bounded())
	})
}

func wireForm(r *contract.Rejected) *cataloguev1.StreamItemsResponse {
	m := &cataloguev1.RejectedItem{ItemNumber: r.ItemNumber, Description: r.Description}
	for _, p := range r.Problems {
		m.Reasons = append(m.Reasons, &cataloguev1.RejectedItem_Reason{Field: p.Field, Reason: p.Reason})
	}
	return &cataloguev1.StreamItemsResponse{Rejected: []*cataloguev1.RejectedItem{m}}
}

func TestNothingIsDroppedFromARejectionWithoutAWord(t *testing.T) {
	long := (&contract.Rejected{Problems: make([]contract.Problem, 100)}).Bounded()
	require.Len(t, long.Problems, 40)
	assert.Equal(t, "and 61 more", long.Problems[39].Reason)
	none := (&contract.Rejected{}).Bounded()
	require.Len(t, none.Problems, 1)
	assert.Contains(t, none.Problems[0].Reason, "gives no reason")
	cut := (&contract.Rejected{ItemNumber: strings.Repeat("ü", 65)}).Bounded()
	assert.Equal(t, strings.Repeat("ü", 60)+" ...", cut.ItemNumber)
	whole := &contract.Rejected{ItemNumber: strings.Repeat("ü", 64), Problems: []contract.Problem{{Field: "f", Reason: "r"}}}
	assert.Equal(t, whole, whole.Bounded())
	assert.Equal(t, `item "": f: r`, (&contract.Rejected{Problems: whole.Problems}).Error())
}

// What is rejected reaches the client as it was bounded, whichever control characters were in it.
func TestRejectionThatIsNoTextStillTravels(t *testing.T) {
	sent := &contract.Rejected{ItemNumber: "P-\xff\n1", Problems: []contract.Problem{{Reason: "\x1b[31mred"}}}
	c := contract.NewClient(serve(t, stock{items: func(yield func(*equipmentv1.Item, error) bool) { yield(nil, sent) }}))
	for _, err := range c.Items(t.Context()) {
		assert.Equal(t, &contract.Rejected{ItemNumber: "P-? 1", Problems: []contract.Problem{{Reason: " [31mred"}}}, err)
	}
}
