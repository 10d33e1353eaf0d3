package catalogue

import (
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// maxQuarantineBytes bounds what is kept of one catalogue's bad items. Nobody mends fifty thousand rows from one list, and
// the first few thousand say what is wrong with the file.
const maxQuarantineBytes = 4 << 20

// quarantine is the items of one catalogue that are left out.
type quarantine struct {
	listed []*pb.QuarantinedItem
	bytes  int
	count  int // listed or not
}

func (q *quarantine) add(catalogue, number string, reasons ...string) {
	q.count++
	item := &pb.QuarantinedItem{Catalogue: catalogue, ItemNumber: number, Reasons: reasons}
	if size := proto.Size(item); q.bytes+size <= maxQuarantineBytes {
		q.listed = append(q.listed, item)
		q.bytes += size
	}
}

func reasons(problems []contract.Problem) []string {
	text := make([]string, len(problems))
	for i, p := range problems {
		text[i] = p.String()
	}
	return text
}
