package stock_test

import (
	"fmt"

	"foldwright/length"
	"foldwright/stock"
)

// Sheets and envelopes are named apart.
func ExampleTable_Envelope() {
	table, err := stock.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet, _ := table.Sheet("A7")
	envelope, _ := table.Envelope("A7")
	fmt.Println("sheet:", sheet.Short.Both(sheet.Unit), "x", sheet.Long.Both(sheet.Unit))
	fmt.Println("envelope:", envelope.Short.Both(envelope.Unit), "x", envelope.Long.Both(envelope.Unit))
	_, err = table.Sheet("C6")
	fmt.Println(err)
	// Output:
	// sheet: 74 mm (≈ 2 15/16 in) x 105 mm (≈ 4 1/8 in)
	// envelope: 5 1/4 in (133.35 mm) x 7 1/4 in (184.15 mm)
	// there is no sheet "C6"; that is the name of an envelope
}

// A thickness is an estimate with a range, and says how sure it is.
func ExampleTable_Caliper() {
	table, err := stock.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	c, _ := table.Caliper("card, uncoated smooth", 230)
	fmt.Printf("%s at %g gsm: %s to %s, %s (%s)\n", c.Material, c.Grammage,
		c.Low.Human(length.MM), c.High.Human(length.MM), c.Status, c.Note)
	// Output:
	// card, uncoated smooth at 230 gsm: 0.23 mm to ≈ 0.31 mm, derived (between 220 and 240 gsm)
}
