// Package leaf writes a plan of a job as one HTML page that stands by itself: what is taken to site, given to the owner, and looked
// up again in June. It fetches nothing, needs no script, prints on A4 and Letter, and reads the same in greyscale. The same plan is
// always the same bytes: the page knows no clock.
package leaf

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"

	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
)

//go:embed leaf.html leaf.css
var files embed.FS

var layout = template.Must(template.New("leaf.html").ParseFS(files, "leaf.html"))

// A part is one section of the page. Parts without anything to say are left out.
type part struct {
	ID, Title string
	// Apart begins on a page of its own when printed.
	Apart  bool
	Blocks []block
}

// A maker writes one part.
type maker func(*leaf) (part, error)

// Page writes the plan.
func Page(plan *pb.PlanJobResponse) ([]byte, error) {
	l := &leaf{plan: cleaned(plan)}
	var parts []part
	for _, make := range []maker{
		(*leaf).glance, (*leaf).cautions, (*leaf).drawings, (*leaf).water, (*leaf).kit, (*leaf).states, (*leaf).fish, (*leaf).light,
		(*leaf).year, (*leaf).shopping, (*leaf).work, (*leaf).electrics, (*leaf).fill, (*leaf).commissioning, (*leaf).costs,
		(*leaf).owner, (*leaf).notes, (*leaf).basis, (*leaf).workings,
	} {
		made, err := make(l)
		if err != nil {
			return nil, err
		}
		if len(made.Blocks) > 0 {
			parts = append(parts, made)
		}
	}
	return render(l.title(), l.lead(), parts)
}

func render(title, lead string, parts []part) ([]byte, error) {
	css, err := files.ReadFile("leaf.css")
	if err != nil {
		return nil, fmt.Errorf("page: %w", err)
	}
	var out bytes.Buffer
	err = layout.Execute(&out, struct {
		Title, Lead string
		CSS         template.CSS
		Parts       []part
	}{title, lead, template.CSS(css), parts})
	if err != nil {
		return nil, fmt.Errorf("page: %w", err)
	}
	return out.Bytes(), nil
}

// A leaf is a page in the making.
type leaf struct {
	plan *pb.PlanJobResponse
	said map[string]bool // cautions that stand on the page
}

func (l *leaf) job() *pb.JobBrief { return l.plan.GetAsked().GetJob() }

func (l *leaf) title() string {
	if title := l.job().GetBrief().GetTitle(); title != "" {
		return title
	}
	return "A pond without a name"
}

// lead is the first sentence of the page.
func (l *leaf) lead() string {
	text := "Job sheet"
	if w := l.plan.GetWork(); w.GetFirstDay() != "" {
		text += ", from " + day(w.GetFirstDay()) + " on"
	}
	return text
}

// cleaned is the plan without whatever of its words has no place on a page, such as controls and marks that turn the direction.
func cleaned(plan *pb.PlanJobResponse) *pb.PlanJobResponse {
	made := proto.CloneOf(plan)
	cleanWords(made.ProtoReflect())
	return made
}
