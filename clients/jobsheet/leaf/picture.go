package leaf

import (
	"errors"

	"example.com/pondwright/clients/internal/chart"
)

// withPicture adds a picture, unless there was nothing to draw.
func withPicture(blocks []block, p chart.Picture, err error, id, heading string) ([]block, error) {
	if errors.Is(err, chart.ErrNothing) {
		return blocks, nil
	}
	if err != nil {
		return blocks, err
	}
	html, err := p.Figure(id)
	if err != nil {
		return blocks, err
	}
	return append(blocks, block{Heading: heading, Picture: html}), nil
}
