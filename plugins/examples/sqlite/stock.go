package main

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"fmt"
	"iter"
	"os"

	_ "modernc.org/sqlite"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// stock is the database of stock.sql, by its path. It is opened for each question, so that it may be changed between two.
type stock struct{ path string }

// Describe says what is in the database. The revision is that of the file: any change to it is a new one.
func (s stock) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	content, err := os.ReadFile(s.path)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(content)
	return &cataloguev1.DescribeResponse{
		Title:    "Example stock (invented)",
		Revision: hex.EncodeToString(sum[:8]),
		Currency: "GBP",
		Notice:   "Invented data for demonstration",
		Kinds:    []equipmentv1.ItemKind{equipmentv1.ItemKind_ITEM_KIND_PUMP},
	}, nil
}

// Items yields the pumps, each with its curve.
func (s stock) Items(ctx context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		db, err := sql.Open("sqlite", "file:"+s.path+"?mode=ro")
		if err != nil {
			yield(nil, err)
			return
		}
		defer db.Close()
		if err := eachPump(ctx, db, func(item *equipmentv1.Item) bool { return yield(item, nil) }); err != nil {
			yield(nil, fmt.Errorf("reading the stock: %w", err))
		}
	}
}

// eachPump goes through the points of all curves, pump by pump, and hands over each pump when its last point is read.
func eachPump(ctx context.Context, db *sql.DB, use func(*equipmentv1.Item) bool) error {
	rows, err := db.QueryContext(ctx, `
		SELECT item_number, description, price, flow_l_per_h, head_m, point.power_w
		FROM pump JOIN point USING (item_number) ORDER BY item_number, flow_l_per_h`)
	if err != nil {
		return err
	}
	defer rows.Close()
	var item *equipmentv1.Item
	for rows.Next() {
		next := &equipmentv1.Item{}
		point := &equipmentv1.CurvePoint{}
		if err := rows.Scan(&next.ItemNumber, &next.Description, &next.Price, &point.FlowLPerH, &point.HeadM, &point.PowerW); err != nil {
			return err
		}
		if item.GetItemNumber() != next.GetItemNumber() {
			if item != nil && !use(item) {
				return nil
			}
			item = next
			item.Kind = &equipmentv1.Item_Pump{Pump: &equipmentv1.Pump{}}
		}
		item.GetPump().Curve = append(item.GetPump().Curve, point)
	}
	if item != nil && rows.Err() == nil {
		use(item)
	}
	return rows.Err()
}
