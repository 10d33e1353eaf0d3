package solids

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A guess at what nobody measures: dry matter in the wet dirt, share of the solids caught, unevenness of the fouling.
type guess struct {
	deposit         unit.Density
	capture, uneven unit.Ratio
}

// beds are the media that catch dirt, with the open share they have clean and three guesses from early to late. Foam and
// matting catch 30 to 60 % of what comes, beads and sand 50 to 80 %. Sources: source.SludgeDensity; open shares are
// assumptions, 3 % of solid in reticulated foam and 5 % in matting, 40 % open for packed grains.
var beds = map[filter.Medium]struct {
	open    unit.Ratio
	guesses [3]guess
}{
	filter.Foam:         {0.97, [3]guess{{20.4, 0.6, 4}, {30.6, 0.45, 3}, {40.8, 0.3, 2}}},
	filter.Matting:      {0.95, [3]guess{{20.4, 0.6, 4}, {30.6, 0.45, 3}, {40.8, 0.3, 2}}},
	filter.FloatingBead: {0.40, [3]guess{{20.4, 0.8, 4}, {30.6, 0.65, 3}, {40.8, 0.5, 2}}},
	filter.Granular:     {0.40, [3]guess{{20.4, 0.8, 4}, {30.6, 0.65, 3}, {40.8, 0.5, 2}}},
}

// assume fills in what was not given, and says so.
func assume(in Input) (Input, []finding.Finding) {
	var found []finding.Finding
	note := func(code, sentence string, v *finding.Value, change string) {
		found = append(found, finding.Finding{
			Code: code, Severity: finding.Note, Subject: "filter", Sentence: sentence, Value: v, Change: change, Source: source.Choice,
		})
	}
	if in.Clean == 0 {
		in.Clean = beds[in.Medium].open
		note("OPEN_SHARE_ASSUMED", fmt.Sprintf("The open share of the clean %s was not given, so %.0f %% was taken.", in.Medium, in.Clean.Percent()),
			finding.Of(in.Clean.Percent(), "%"), "Ask the maker for it.")
	}
	if in.HeadRatio == 0 {
		in.HeadRatio = filter.DueRatio
		note("DUE_HEAD_ASSUMED", fmt.Sprintf("When the filter is due was not given, so it was taken to be at %.0f times the head it loses clean.", in.HeadRatio.Float()),
			finding.Of(in.HeadRatio.Float(), "1"), "Give the head lost clean and when due.")
	}
	return in, found
}
