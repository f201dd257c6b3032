package drawing

import "io"

// Device writes drawings in one format. Implemented by svg.Device, pdf.Device and png.Device.
type Device interface {
	// Write writes the whole drawing. The same drawing gives the same bytes.
	// Errors: *NotDrawableError before anything is written; errors of w.
	Write(w io.Writer, d *Drawing) error
	// Ext returns the usual ending of a file name, with its dot: ".svg".
	Ext() string
}
