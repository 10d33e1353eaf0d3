package brief

import (
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// ReadVisit reads what was measured on a visit to a pond whose job was read before.
func ReadVisit(name string, text []byte, job *pondwrightv1.JobBrief) (*pondwrightv1.AssessVisitRequest, *Positions, error) {
	v := &pondwrightv1.AssessVisitRequest{Job: job}
	at, err := decode(name, text, v.ProtoReflect(), nil)
	if err != nil {
		return nil, at, err
	}
	v.Job = job // whatever the file said of it
	return v, at, nil
}
