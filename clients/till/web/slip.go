package web

import (
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"strings"

	"rsc.io/qr"

	"example.com/pondwright/clients/till/form"
	"example.com/pondwright/clients/till/recall"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A slip is what the customer takes home.
type slip struct {
	Date     string
	Kit      kit
	Asked    []fact
	Assumed  []remark
	Cautions []remark
	Notices  []string
	Code     string
	QR       template.HTML
	Engine   string
	Foreign  bool
}

func (t *till) slip(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "Slip")
	brief, faults := p.Values.Brief()
	p.Faults = faults
	switch {
	case len(faults) > 0:
		t.show(w, http.StatusUnprocessableEntity, "slip", p)
		return
	case p.Set.Items["pump"] == "" || p.Set.Items["hose"] == "":
		p.Trouble = &trouble{Heading: "There is no kit in this address", Sentence: "Go back to the kits and choose one from there."}
		t.show(w, http.StatusUnprocessableEntity, "slip", p)
		return
	}
	brief.Currency = t.Currency
	ctx, cancel := hurry(r)
	defer cancel()
	resp, err := t.judge(ctx, brief, p.Set)
	if err != nil {
		t.show(w, t.failed(&p, err), "slip", p)
		return
	}
	made, err := t.made(p, resp)
	if err != nil {
		t.Logger.Error("slip", "error", err)
		p.Trouble = &trouble{Heading: "No slip can be made of this", Sentence: capital(err.Error()) + "."}
		t.show(w, http.StatusUnprocessableEntity, "slip", p)
		return
	}
	p.Slip = made
	t.show(w, http.StatusOK, "slip", p)
}

func (t *till) made(p page, resp *pb.CheckKitResponse) (*slip, error) {
	v := viewer{system: p.System, values: p.Values}
	heading := "The kit"
	if !resp.GetKit().GetWorks() {
		heading = "This kit does not do what was asked"
	}
	s := &slip{
		Date: t.Today().Format("2 January 2006"), Kit: v.kit(resp.GetKit(), "kit1", heading, resp.GetWanted()),
		Notices: notices(resp.GetProvenance()), Foreign: p.System.Key != "metric",
		Engine: fmt.Sprintf("method %s, question %.12s", resp.GetProvenance().GetMethodSet(), resp.GetProvenance().GetRequestDigest()),
		Asked:  v.asked(),
	}
	s.Assumed, s.Cautions, _ = remarks(resp.GetFindings())
	s.Cautions = three(s.Cautions)
	design := recall.Design{Values: p.Values.Plain()}
	for i, kind := range recall.Kinds {
		if c := itemsOf(resp.GetKit())[kind]; c.GetItem() != nil {
			design.Items[i], design.Owned[i] = recall.Fingerprint(c.GetCatalogue(), c.GetItem().GetItemNumber()), p.Set.Owned[kind]
		}
	}
	var err error
	if s.Code, err = recall.Write(design); err != nil {
		return nil, err
	}
	s.QR, err = square(s.Code)
	return s, err
}

// asked is what the customer said, as he said it.
func (v viewer) asked() []fact {
	var facts []fact
	for _, f := range form.Fields() {
		text := v.values[f.Name]
		if text == "" || f.Name == form.Stock {
			continue
		}
		for _, c := range f.Choices {
			if c.Key == text {
				text = c.Label
			}
		}
		if unit := v.system.Unit(f.Of).Symbol; unit != "" {
			text += " " + unit
		}
		facts = append(facts, fact{Label: f.Label, Value: text})
	}
	return facts
}

// always are the cautions that stand on every slip, as far as the engine has not said them itself.
var always = []remark{
	{Code: "MAINS_NEAR_WATER", Sentence: "Mains near water can kill.", Change: "Unplug everything before hands go in, and have a licensed electrician fit the supply to the local code."},
	{Code: "WATER_DROWNS", Sentence: "Any depth of water can drown a child.", Change: "Supervise, cover or fence it, as local rules ask."},
	{Code: "MEASURE", Sentence: "This is an estimate from what was said at the counter.", Change: "Measure on site before you buy or dig."},
}

// three are the cautions of the slip: mains, drowning, and UV light where there is a lamp unit or else the estimate. What the
// engine says of them goes before what stands here.
func three(said []remark) []remark {
	chosen := append([]remark(nil), always...)
	for _, r := range said {
		for i := range chosen {
			if chosen[i].Code == r.Code {
				chosen[i] = r
			}
		}
		if strings.HasPrefix(r.Code, "UV") {
			chosen[2] = r
		}
	}
	return chosen
}

// square draws the code for a scanner at the counter.
func square(code string) (template.HTML, error) {
	made, err := qr.Encode(code, qr.M)
	if err != nil {
		return "", fmt.Errorf("draw code: %w", err)
	}
	const quiet = 4 // ISO/IEC 18004 asks for four modules of margin
	var path strings.Builder
	for y := range made.Size {
		for x := range made.Size {
			if made.Black(x, y) {
				fmt.Fprintf(&path, "M%d %dh1v1h-1z", x+quiet, y+quiet)
			}
		}
	}
	side := made.Size + 2*quiet
	return template.HTML(fmt.Sprintf(`<svg class="qr" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" role="img" aria-label="The code as a square, for a scanner">`+
		`<path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="%s"/></svg>`, side, side, side, side, path.String())), nil
}

// recall brings back a design from its code.
func (t *till) recall(w http.ResponseWriter, r *http.Request) {
	p := t.page(r, "Bring a design back")
	p.Code = r.URL.Query().Get("code")
	design, err := recall.Read(p.Code)
	if err != nil {
		p.CodeFault = capital(err.Error()) + "."
		t.show(w, http.StatusUnprocessableEntity, "kits", p)
		return
	}
	p.Values, p.System = design.Values, design.Values.System()
	ctx, cancel := hurry(r)
	defer cancel()
	q := design.Values.Query()
	var gone []string
	for i, kind := range recall.Kinds {
		if design.Items[i] == 0 {
			continue
		}
		items, _, err := t.items(ctx, kind, 1<<20)
		if err != nil {
			t.show(w, t.failed(&p, err), "kits", p)
			return
		}
		found, err := matching(items, design.Items[i])
		if err != nil {
			gone = append(gone, kindNames[kind])
			continue
		}
		q.Set("set-"+kind, found)
		if design.Owned[i] {
			q.Set("own-"+kind, "1")
		}
	}
	if len(gone) > 0 {
		p.CodeFault = "The " + strings.Join(gone, " and the ") + " of this design can no longer be found in the catalogue. The rest of it is below: find kit anew."
		t.show(w, http.StatusOK, "kits", p)
		return
	}
	http.Redirect(w, r, backTo(q), http.StatusSeeOther)
}

func backTo(q url.Values) string {
	if q.Get("set-pump") == "" {
		return "/kits?" + q.Encode()
	}
	return "/slip?" + q.Encode()
}

var errNotOne = errors.New("not one item has this fingerprint")

func matching(items []*pb.CataloguedItem, fingerprint uint32) (string, error) {
	found := ""
	for _, c := range items {
		if recall.Fingerprint(c.GetCatalogue(), c.GetItem().GetItemNumber()) == fingerprint {
			if found != "" {
				return "", errNotOne
			}
			found = c.GetCatalogue() + "/" + c.GetItem().GetItemNumber()
		}
	}
	if found == "" {
		return "", errNotOne
	}
	return found, nil
}
