//! Every state × every event, written by hand from the contract
//! (docs/behaviour.md), a file a region.
//!
//! A cell is a word; what the word promises stands beside the table. States are
//! reached by replaying events from the start state, never by setting them. A
//! new state, event, reason or key breaks the build here: the matches have no
//! wildcard.

mod access;
mod access_time;
mod session;

/// Rows and columns of a table written as text: the first line names the
/// columns; each further line is a row's name and its cells, split by blanks.
/// Names say `-` where they mean a blank.
struct Table<'a> {
    columns: Vec<&'a str>,
    rows: Vec<(&'a str, Vec<&'a str>)>,
}

impl<'a> Table<'a> {
    fn read(text: &'a str) -> Self {
        let mut lines = text.lines().filter(|line| !line.trim().is_empty());
        let columns: Vec<_> = lines.next().unwrap().split_whitespace().skip(1).collect();
        let rows = lines
            .map(|line| {
                let mut words = line.split_whitespace();
                let name = words.next().unwrap();
                let cells: Vec<_> = words.collect();
                assert_eq!(cells.len(), columns.len(), "row {name} has gaps");
                (name, cells)
            })
            .collect();
        Self { columns, rows }
    }

    /// The cells by row and column.
    fn cells(&self) -> impl Iterator<Item = (&'a str, &'a str, &'a str)> {
        self.rows.iter().flat_map(|(row, cells)| {
            cells.iter().zip(&self.columns).map(|(cell, column)| (*row, *column, *cell))
        })
    }
}
