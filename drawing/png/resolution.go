package png

import (
	"encoding/binary"
	"hash/crc32"
	"math"
	"slices"
)

// headEnd is where the first chunk (IHDR: 4 length, 4 type, 13 data, 4 check) ends behind the signature of 8 bytes.
const headEnd = 8 + 4 + 4 + 13 + 4

// withResolution puts a pHYs chunk behind the head of a PNG: pixels per metre, so that a reader shows it in true size.
// Source: PNG, third edition (W3C), 11.3.4.3 pHYs.
func withResolution(file []byte, dpi float64) []byte {
	if len(file) < headEnd {
		return file
	}
	perMetre := uint32(math.Round(dpi / 0.0254))
	body := append([]byte("pHYs"), 0, 0, 0, 0, 0, 0, 0, 0, 1)
	binary.BigEndian.PutUint32(body[4:], perMetre)
	binary.BigEndian.PutUint32(body[8:], perMetre)
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return slices.Insert(slices.Clone(file), headEnd, chunk...)
}
