// Package store keeps a studio in one file: the cards, the drawer, the sizes that were asked for, and every change of them.
//
//	text, what was done ──Save──> revision ──Undo, Redo, Return──> revision
//	                                  │
//	        card: title, tags <───────┘ (taken from the newest text)
//	        papers ──Cut, with its plan──> papers less the sheets, and the off-cuts
//
// Words: a document is a text that is kept with its history: a card's recipe, or a file of the drawer. A revision is one
// state of a document, numbered from 1. A save, an undo, a redo and a return are each a new revision, so nothing that was
// ever saved is lost. Undo and redo move along revisions, and a save behind an undo starts a way of its own:
//
//	number   1    2    3    4       5
//	done     A    B    C    undo C  D        4 shows 2 again; undoing 5 shows 2, then 1; 3 stays in the history
//
// Whoever changes a document names the revision that they saw. If it is not the newest any more, the change is refused as a
// [Conflict] that holds both texts, so two open tabs do not overwrite each other.
//
// Texts are kept as they are, whether or not they can be read yet: half a line that somebody typed is an edit too. The
// drawer's files are those that kit.ReadDrawer, stock.ReadDies, stock.ReadOwnEnvelopes, stock.Table.WithMail and
// stock.ReadPrices read.
//
// What holds: a function that returned without an error has put its change on the disk (write-ahead log, synced at every
// commit), so it is there after kill -9 or a power cut, as far as the disk keeps its word. A change is there wholly or not
// at all. A full disk refuses the change and keeps what was there. Two programs may open one file; they wait for each other.
//
// A change is not made if its context ends first; to save what was typed though the page was closed, pass a context that
// goes on (context.WithoutCancel).
//
// Sizes are kept exactly, times to the millisecond. It does not judge cards, knows nothing of pages, and reads no clock but
// the one that it is given. Nothing is kept of who asked for a size, or when.
package store
