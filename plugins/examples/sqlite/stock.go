package main

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"iter"

	"google.golang.org/protobuf/proto"
	_ "modernc.org/sqlite"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// stock is the database of stock.sql, by its path. It is opened for each question, so that it may be changed between two.
type stock struct{ path string }

// Describe says what is in the database. The revision is made of the items: what is on hand is asked for at any moment, and a
// pump that is sold is no new catalogue.
func (s stock) Describe(ctx context.Context) (*cataloguev1.DescribeResponse, error) {
	sum := sha256.New()
	for item, err := range s.Items(ctx) {
		if err != nil {
			return nil, err
		}
		content, err := proto.MarshalOptions{Deterministic: true}.Marshal(item)
		if err != nil {
			return nil, err
		}
		sum.Write(content)
	}
	return &cataloguev1.DescribeResponse{
		Title:    "Example stock (invented)",
		Revision: hex.EncodeToString(sum.Sum(nil)[:8]),
		Currency: "GBP",
		Notice:   "Invented data for demonstration",
		Kinds:    []equipmentv1.ItemKind{equipmentv1.ItemKind_ITEM_KIND_PUMP},
	}, nil
}

func (s stock) open() (*sql.DB, error) { return sql.Open("sqlite", "file:"+s.path+"?mode=ro") }

// Stock says how many of some pumps are on hand. To have this method is all it takes to be asked.
func (s stock) Stock(ctx context.Context, itemNumbers []string) ([]*cataloguev1.StockLevel, error) {
	db, err := s.open()
	if err != nil {
		return nil, err
	}
	defer db.Close()
	var levels []*cataloguev1.StockLevel
	for _, number := range itemNumbers {
		level := &cataloguev1.StockLevel{ItemNumber: number}
		switch err := db.QueryRowContext(ctx, `SELECT on_hand FROM pump WHERE item_number = ?`, number).Scan(&level.OnHand); {
		case errors.Is(err, sql.ErrNoRows): // an item that is not known is left out
		case err != nil:
			return nil, fmt.Errorf("asking the stock for %s: %w", number, err)
		default:
			levels = append(levels, level)
		}
	}
	return levels, nil
}

// Items yields the pumps, each with its curve.
func (s stock) Items(ctx context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		db, err := s.open()
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
