#!/usr/bin/env python3
"""Prints the results of the benchmark programs as one table in Markdown.

    table.py RESULTS.json...        files that the programs wrote with --benchmark_out

One line per benchmark: the processor's time for one result, how many times as long that is as another way takes (taken in turn with it in the
same run), how often memory is asked for, and what else was counted.
"""

import json
import sys

# Counters that are ratios of times, and what they compare with.
BESIDE = {
    "in_tan": "one std::tan",
    "in_textbook": "textbook",
    "of_single": "one by one",
}


def time_of(nanoseconds):
    for limit, unit, factor in ((1e3, "ns", 1), (1e6, "us", 1e3), (1e9, "ms", 1e6)):
        if nanoseconds < limit:
            break
    else:
        unit, factor = "s", 1e9
    value = nanoseconds / factor
    return f"{value:.{0 if value >= 100 else 1 if value >= 10 else 2}f} {unit}"


def number_of(value):
    if value == int(value) and abs(value) < 1e9:
        return f"{int(value)}"
    return f"{value:.3g}"


def counters_of(benchmark):
    known = {"name", "family_index", "per_family_instance_index", "run_name", "run_type", "repetitions", "repetition_index", "threads",
             "iterations", "real_time", "cpu_time", "time_unit", "each", "allocations", "label", "error_occurred", "error_message"}
    return {name: value for name, value in benchmark.items() if name not in known and name not in BESIDE}


def row_of(benchmark):
    name, *arguments = benchmark["name"].split("/")
    arguments = [a for a in arguments if not a.startswith("iterations:")]
    name = name.replace("_", " ") + (" (" + ", ".join(arguments) + ")" if arguments else "")
    if benchmark.get("error_occurred"):
        return [name, "failed: " + benchmark.get("error_message", ""), "", "", ""]
    factor = {"ns": 1, "us": 1e3, "ms": 1e6, "s": 1e9}[benchmark["time_unit"]]
    nanoseconds = benchmark["each"] * 1e9 if "each" in benchmark else benchmark["cpu_time"] * factor
    beside = ", ".join(f"{benchmark[c]:.2f} x {what}" for c, what in BESIDE.items() if c in benchmark)
    allocations = number_of(benchmark["allocations"]) if "allocations" in benchmark else ""
    others = ", ".join(f"{n.replace('_', ' ')} {number_of(v)}" for n, v in counters_of(benchmark).items())
    return [name, time_of(nanoseconds), beside, allocations, others]


def processor():
    try:
        with open("/proc/cpuinfo", encoding="utf-8") as file:
            for line in file:
                if line.startswith("model name"):
                    return line.split(":", 1)[1].strip()
    except OSError:
        pass
    return "processor unknown"


def main():
    rows = [["what", "time for one", "as many times as", "allocations", "also"]]
    for path in sys.argv[1:]:
        with open(path, encoding="utf-8") as file:
            text = file.read()
        if text.strip():
            rows.extend(row_of(b) for b in json.loads(text)["benchmarks"])
    widths = [max(len(row[i]) for row in rows) for i in range(5)]
    print(processor())
    print()
    for number, row in enumerate(rows):
        print("| " + " | ".join(cell.ljust(width) for cell, width in zip(row, widths)) + " |")
        if number == 0:
            print("|" + "|".join("-" * (width + 2) for width in widths) + "|")


if __name__ == "__main__":
    main()
