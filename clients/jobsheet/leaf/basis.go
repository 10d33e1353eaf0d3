package leaf

import "fmt"

// basis is what the plan rests on, so that it can be asked again years later.
func (l *leaf) basis() (part, error) {
	p := part{ID: "basis", Title: "What this rests on"}
	v := l.plan.GetProvenance()
	if v == nil {
		return p, nil
	}
	rows := []pair{{"Engine", v.GetEngineVersion() + ", methods " + v.GetMethodSet()}}
	for _, c := range v.GetCatalogues() {
		words := c.GetCatalogue() + ", revision " + c.GetRevision() + ". " + sentence(c.GetNotice())
		if c.GetFault() != "" {
			words += " Its last reading failed: " + sentence(c.GetFault()) + " What was read before is used."
		}
		if n := c.GetQuarantinedCount(); n > 0 {
			words += fmt.Sprintf(" Items left out: %d.", n)
		}
		rows = append(rows, pair{"Catalogue", words})
	}
	rows = append(rows, pair{"Question", v.GetRequestDigest()}, pair{"Answer", l.plan.GetAnswerDigest()})
	p.Blocks = []block{{Rows: rows}, {Text: "The two long numbers are SHA-256 of the question and the answer. With the JSON of this plan the same question can be asked again, and the answers compared."}}
	return p, nil
}
