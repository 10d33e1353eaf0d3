package service

import (
	"encoding/base64"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"

	"example.com/pondwright/server/internal/intercept"
)

// pageSize is how many to send, where 0 leaves it to the engine.
func pageSize(asked int32, usual int) int {
	if asked == 0 {
		return usual
	}
	return int(asked)
}

// token says after what the next page begins. No part can hold a control character.
func token(parts ...string) string {
	return base64.RawURLEncoding.EncodeToString([]byte(strings.Join(parts, "\x00")))
}

// readToken gives the parts of a token, and nil where there is none.
func readToken(text string, parts int) ([]string, error) {
	if text == "" {
		return nil, nil
	}
	plain, err := base64.RawURLEncoding.DecodeString(text)
	if err != nil {
		return nil, badToken()
	}
	split := strings.Split(string(plain), "\x00")
	if len(split) != parts {
		return nil, badToken()
	}
	return split, nil
}

func badToken() error {
	return intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{{
		Field: "page_token", Description: "is not a token of this engine; send the next_page_token of the page before, or none",
		Reason: "PAGE_TOKEN",
	}})
}
