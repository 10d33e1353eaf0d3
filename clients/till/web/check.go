package web

import (
	"context"
	"net/http"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// checked is the judgement of a set that the customer named.
type checked struct {
	Kit      *kit
	States   []verdict
	Mend     *mend
	Assumed  []remark
	Cautions []remark
	Notes    []remark
	Notices  []string
	Foreign  bool
	// Offered are the items to choose from, by kind.
	Offered map[string][]offer
}

// A verdict on one state.
type verdict struct {
	State string
	Works bool
	Stops []remark
}

// A mend is the smallest change after which the set works.
type mend struct {
	Sentence, Price string
	Changes         []string
	Kit             kit
}

// An offer is an item to choose.
type offer struct{ Value, Label string }

// mostOffered in a list to choose from; of a longer catalogue the number is typed in.
const mostOffered = 300

// check judges a set; without one it asks for it.
func (t *till) check(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "Will this kit do?")
	p.Check = &checked{Foreign: p.System.Key != "metric"}
	ctx, cancel := hurry(r)
	defer cancel()
	offered, err := t.offered(ctx)
	if err != nil {
		t.show(w, t.failed(&p, err), "check", p)
		return
	}
	p.Check.Offered = offered
	t.begin(&p)
	if len(p.Set.Items) == 0 && r.URL.Query().Get("asked") == "" {
		t.show(w, http.StatusOK, "check", p)
		return
	}
	brief, faults := p.Values.Brief()
	for _, kind := range []string{"pump", "hose"} {
		if p.Set.Items[kind] == "" {
			faults = append(faults, form.Fault{Field: "set-" + kind, Message: "say which " + kind + ": without one nothing flows"})
		}
	}
	if p.Faults = faults; len(faults) > 0 {
		t.show(w, http.StatusUnprocessableEntity, "check", p)
		return
	}
	brief.Currency = t.Currency
	resp, err := t.judge(ctx, brief, p.Set)
	if err != nil {
		t.show(w, t.failed(&p, err), "check", p)
		return
	}
	viewer{system: p.System, values: p.Values}.judged(p.Check, resp)
	t.show(w, http.StatusOK, "check", p)
}

func (t *till) judge(ctx context.Context, brief *pb.QuickBrief, s set) (*pb.CheckKitResponse, error) {
	return pb.NewKitServiceClient(t.Engine).CheckKit(ctx,
		&pb.CheckKitRequest{QuickBrief: brief, Set: s.fill(brief), Pictures: true}, grpc.MaxCallRecvMsgSize(largest))
}

func (v viewer) judged(c *checked, resp *pb.CheckKitResponse) {
	heading := "This kit works"
	if !resp.GetKit().GetWorks() {
		heading = "This kit does not work"
	}
	c.Kit = new(v.kit(resp.GetKit(), "kit1", heading, resp.GetWanted()))
	c.Assumed, c.Cautions, c.Notes = remarks(resp.GetFindings())
	c.Notices = notices(resp.GetProvenance())
	for _, s := range resp.GetVerdicts() {
		one := verdict{State: stateName(s.GetState(), resp.GetKit().GetFilter() != nil), Works: s.GetWorks()}
		_, one.Stops, _ = remarks(s.GetStops())
		c.States = append(c.States, one)
	}
	if m := resp.GetSmallestChange(); m != nil {
		made := mend{
			Sentence: m.GetSentence(), Price: figure.Money(m.GetKit().GetCost().GetCurrency(), m.GetPrice()),
			Kit: v.kit(m.GetKit(), "mended", "The kit after the change", resp.GetWanted()),
		}
		for _, change := range m.GetChanges() {
			made.Changes = append(made.Changes, changed(change))
		}
		c.Mend = &made
	}
}

func changed(c *pb.ItemChange) string {
	to := c.GetTo().GetItem()
	from := c.GetFrom().GetItem()
	switch {
	case from == nil:
		return "add " + to.GetItemNumber() + ", " + to.GetDescription()
	case to == nil:
		return "leave out " + from.GetItemNumber()
	}
	return to.GetItemNumber() + ", " + to.GetDescription() + ", in place of " + from.GetItemNumber()
}

// offered lists the items of each kind, or nothing where there are more than anybody looks through.
func (t *till) offered(ctx context.Context) (map[string][]offer, error) {
	all := map[string][]offer{}
	for _, kind := range single {
		items, whole, err := t.items(ctx, kind, mostOffered)
		if err != nil {
			return nil, err
		}
		if !whole {
			continue
		}
		for _, c := range items {
			all[kind] = append(all[kind], offer{c.GetCatalogue() + "/" + c.GetItem().GetItemNumber(), c.GetItem().GetItemNumber() + ", " + c.GetItem().GetDescription()})
		}
	}
	return all, nil
}

// items reads a kind page by page, up to a number of them. whole reports whether that was all.
func (t *till) items(ctx context.Context, kind string, most int) (items []*pb.CataloguedItem, whole bool, err error) {
	token := ""
	for {
		resp, err := pb.NewCatalogueServiceClient(t.Engine).ListItems(ctx,
			&pb.ListItemsRequest{Kind: itemKinds[kind], PageSize: 1000, PageToken: token}, grpc.MaxCallRecvMsgSize(largest))
		if err != nil {
			return nil, false, err
		}
		items, token = append(items, resp.GetItems()...), resp.GetNextPageToken()
		switch {
		case len(items) > most:
			return items, false, nil
		case token == "":
			return items, true, nil
		}
	}
}

// A picker is a kind of item to choose.
type picker struct {
	Kind, Label, Chosen string
	Owned               bool
	Offers              []offer
	Needed              bool
	Fault               string
}

func newPicker(p page, kind string) picker {
	made := picker{
		Kind: kind, Label: capital(kindNames[kind]), Chosen: p.Set.Items[kind], Owned: p.Set.Owned[kind],
		Needed: kind == "pump" || kind == "hose", Fault: p.Faults.Of("set-" + kind),
	}
	if p.Check != nil {
		made.Offers = p.Check.Offered[kind]
	}
	return made
}
