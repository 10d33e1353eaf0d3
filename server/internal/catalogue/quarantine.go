package catalogue

import (
	"fmt"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// maxQuarantineBytes bounds what is listed of one catalogue. A folder in which every row is wrong would otherwise make an
// answer beyond the 4 MiB that gRPC clients take unless told otherwise, and nobody mends a thousand rows from one list.
const maxQuarantineBytes = 256 << 10

// quarantine is the items of one catalogue that are left out.
type quarantine struct {
	listed []*pb.QuarantinedItem
	bytes  int
	count  int // listed or not
}

func (q *quarantine) add(number string, reasons ...string) {
	q.count++
	item := &pb.QuarantinedItem{ItemNumber: number, Reasons: reasons}
	if size := proto.Size(item); q.bytes+size <= maxQuarantineBytes {
		q.listed = append(q.listed, item)
		q.bytes += size
	}
}

// list is what to answer, with a last entry that says so where there are more.
func (q *quarantine) list() []*pb.QuarantinedItem {
	more := q.count - len(q.listed)
	if more == 0 {
		return q.listed
	}
	return append(q.listed, &pb.QuarantinedItem{
		Reasons: []string{fmt.Sprintf("%d more items are left out and not listed: mend the others first and read again", more)},
	})
}

func reasons(problems []contract.Problem) []string {
	text := make([]string, len(problems))
	for i, p := range problems {
		text[i] = p.String()
	}
	return text
}
