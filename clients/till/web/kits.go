package web

import (
	"net/http"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/till/form"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// largest answer that is read.
const largest = 32 << 20

const (
	shownKits   = 3
	shownLosers = 6
)

// ask shows the form: empty, or with what an address holds.
func (t *till) ask(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "What does the pond need?")
	t.begin(&p)
	t.show(w, http.StatusOK, "kits", p)
}

// begin puts into an empty form what is known before anybody asks.
func (t *till) begin(p *page) {
	if p.Values.Empty() && p.Values[form.Energy] == "" && t.Energy != "" {
		p.Values[form.Energy] = t.Energy
	}
}

// units shows the form again in other units, with everything converted.
func (t *till) units(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "What does the pond need?")
	v := p.Values.In(form.SystemOf(r.URL.Query().Get("to")))
	to := "/?"
	if r.URL.Query().Get("shown") != "" {
		to = "/kits?"
	}
	q := v.Query()
	p.Set.kept().put(q)
	http.Redirect(w, r, to+q.Encode(), http.StatusSeeOther)
}

// kits answers the form.
func (t *till) kits(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "Kits for this pond")
	brief, faults := p.Values.Brief()
	if p.Faults = faults; len(faults) > 0 {
		p.Title = "Something to change"
		t.show(w, http.StatusUnprocessableEntity, "kits", p)
		return
	}
	brief.Currency = t.Currency
	p.Set.kept().fill(brief)
	ctx, cancel := hurry(r)
	defer cancel()
	resp, err := pb.NewKitServiceClient(t.Engine).SuggestKits(ctx,
		&pb.SuggestKitsRequest{QuickBrief: brief, MaxKits: shownKits, Pictures: true, MaxLosers: shownLosers}, grpc.MaxCallRecvMsgSize(largest))
	if err != nil {
		status := t.failed(&p, err)
		p.Title = "No answer yet"
		t.show(w, status, "kits", p)
		return
	}
	p.Answer = viewer{system: p.System, values: p.Values}.answer(resp)
	t.show(w, http.StatusOK, "kits", p)
}
