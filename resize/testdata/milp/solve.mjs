// Solves mixed-integer linear models for the tests of package resize.
//
// Standard input: one JSON object a line, {"id": "...", "lp": "a model in the LP text format"}.
// Standard output: one line for each, {"id", "status", "objective", "columns": {name: value}, "ms"}.
// ms is the time of the solver alone, without reading and writing.
import { createInterface } from "node:readline";
import loadHighs from "highs";

const highs = await loadHighs();
for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() === "") continue;
  const { id, lp } = JSON.parse(line);
  const start = performance.now();
  // No gap: the reference must be the optimum, not near it.
  const answer = highs.solve(lp, { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-9 });
  const ms = performance.now() - start;
  const columns = {};
  for (const [name, c] of Object.entries(answer.Columns ?? {})) columns[name] = c.Primal;
  console.log(JSON.stringify({ id, status: answer.Status, objective: answer.ObjectiveValue ?? null, columns, ms }));
}
