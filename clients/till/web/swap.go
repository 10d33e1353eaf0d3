package web

import (
	"html/template"
	"net/http"
	"strings"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// swapped is what may stand in for an item that cannot be had.
type swapped struct {
	Kind    string // in words
	Out     string
	Found   []substitute
	Losers  []loser
	Foreign bool
	Back    template.URL
}

// A substitute, and what changes with it.
type substitute struct {
	What    string
	Changes []change
	Kit     kit
}

// A change of one figure.
type change struct{ Figure, Before, After string }

func (t *till) swap(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "Something in its place")
	kind := r.URL.Query().Get("out")
	q := p.Values.Query()
	p.Swap = &swapped{Kind: kindNames[kind], Out: p.Set.Items[kind], Foreign: p.System.Key != "metric", Back: template.URL(q.Encode())}
	brief, faults := p.Values.Brief()
	p.Faults = faults
	if itemKinds[kind] == 0 || p.Set.Items["pump"] == "" || p.Set.Items["hose"] == "" {
		p.Trouble = &trouble{Heading: "There is no kit in this address", Sentence: "Go back to the kits and choose one from there."}
		t.show(w, http.StatusUnprocessableEntity, "swap", p)
		return
	}
	if len(faults) > 0 {
		t.show(w, http.StatusUnprocessableEntity, "swap", p)
		return
	}
	brief.Currency = t.Currency
	ctx, cancel := hurry(r)
	defer cancel()
	resp, err := pb.NewKitServiceClient(t.Engine).SuggestSubstitutes(ctx,
		&pb.SuggestSubstitutesRequest{QuickBrief: brief, Set: p.Set.fill(brief), Out: itemKinds[kind], Pictures: true}, grpc.MaxCallRecvMsgSize(largest))
	if err != nil {
		t.show(w, t.failed(&p, err), "swap", p)
		return
	}
	v := viewer{system: p.System, values: p.Values}
	out := itemsOf(resp.GetKit())[kind].GetItem()
	p.Swap.Out = out.GetItemNumber() + ", " + out.GetDescription()
	for i, s := range resp.GetSubstitutes() {
		made := substitute{What: s.GetItem().GetItem().GetItemNumber() + ", " + s.GetItem().GetItem().GetDescription()}
		made.Kit = v.kit(s.GetKit(), "kit"+string(rune('1'+i%9)), "With "+s.GetItem().GetItem().GetItemNumber(), nil)
		for _, d := range s.GetDifferences() {
			made.Changes = append(made.Changes, change{d.GetFigure(), v.quantity(d.GetBefore()), v.quantity(d.GetAfter())})
		}
		p.Swap.Found = append(p.Swap.Found, made)
	}
	for _, l := range resp.GetLosers() {
		p.Swap.Losers = append(p.Swap.Losers, v.loser(l))
	}
	t.show(w, http.StatusOK, "swap", p)
}

// quantity writes a number of the engine with its unit, in the customer's where that is one of his.
func (v viewer) quantity(q *pb.Quantity) string {
	if q == nil {
		return "not known"
	}
	switch q.GetUnit() {
	case "L/h":
		return v.round(form.Flow, q.GetValue())
	case "mm":
		return v.round(form.Bore, q.GetValue())
	case "":
		return figure.Number(q.GetValue())
	}
	if len(q.GetUnit()) == 3 && q.GetUnit() == strings.ToUpper(q.GetUnit()) {
		return figure.Money(q.GetUnit(), q.GetValue())
	}
	return figure.With(q.GetValue(), q.GetUnit())
}
