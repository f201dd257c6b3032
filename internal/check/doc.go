// Package check runs check values: tables of results that come from outside the project, in testdata/check/*.csv.
//
// It turns a table into rows that a test uses up one by one, and fails the test where a check could vanish: no file, an
// empty table, another number of rows than the head promises, a row that was not used, a column that was never read.
//
// A table starts with a line that counts its rows and names where the values come from; then the names of the columns:
//
//	# rows: 2; source: Author (year), Title, table 3
//	name,source,width_mm,expected,unit,tolerance,why
//	narrow,p. 12,10,3.2,N,0.05,printed to one place
//	wide,p. 12,20,6.4,N,1 %,read off a chart
//
// The columns name, source, tolerance, why and at least one that starts with "expected" must be there; name must differ
// from row to row, and source, tolerance and why must say something. An input carries its unit in its name (width_mm).
// A tolerance is a number in the unit of the expected value, a percentage of it ("1 %"), or "exact".
//
// Values that our own code produced are goldens and have no place in such a table. The package is for tests only, and
// imports nothing of ours, so that every package can use it.
package check
