//! The plain line file: a bare tree of lossy lines in JSON, for other tools, benches and checks.
//!
//! ```json
//! {
//!   "source": {"node": "src", "impedance_ohm": 100.0},
//!   "line": {"r_ohm_per_m": 0.176, "l_h_per_m": 6e-07, "c_f_per_m": 5e-11, "g_s_per_m": 0.0, "skin_corner_hz": 60000.0},
//!   "frequencies_hz": [300.0, 3400.0, 1000000.0],
//!   "segments": [{"from": "src", "to": "end", "length_m": 100.0}],
//!   "terminations": [{"node": "end", "resistance_ohm": 100.0}]
//! }
//! ```
//!
//! `line` at the top is the default; a segment may carry its own. `r_ohm_per_m` is the loop; with
//! `skin_corner_hz`, R(f) = R (1 + (f/fc)^2)^(1/4). Segments come in any order and direction and together
//! make a tree from the source's node. A node without termination is open; a termination may add
//! `series_capacitance_f` and `parallel_capacitance_f`, and several at one node are in parallel. Other
//! keys at the top are ignored; an unknown key further in is an error, since a misspelt one would silently
//! become nothing.

use std::borrow::Cow;
use std::collections::BTreeMap;

use latchline_circuit::signal::{
    Branch, Line, LineLaw, OrderError, PlainLine, Shunt, SignalTree, Source, TreeError, check_frequency_hz,
    order_from,
};
use serde::Deserialize;

use super::plain_fault::PlainFault;

/// What was read, or what is wrong with it.
type Result<T> = std::result::Result<T, PlainFault>;

/// A name, borrowed from the text where it has no escapes.
#[derive(Deserialize)]
struct Name<'a>(#[serde(borrow)] Cow<'a, str>);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSource<'a> {
    #[serde(borrow)]
    node: Name<'a>,
    impedance_ohm: f64,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileLine {
    r_ohm_per_m: f64,
    l_h_per_m: f64,
    c_f_per_m: f64,
    g_s_per_m: f64,
    skin_corner_hz: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSegment<'a> {
    #[serde(borrow)]
    from: Name<'a>,
    #[serde(borrow)]
    to: Name<'a>,
    length_m: f64,
    line: Option<FileLine>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileTermination<'a> {
    #[serde(borrow)]
    node: Name<'a>,
    resistance_ohm: f64,
    series_capacitance_f: Option<f64>,
    parallel_capacitance_f: Option<f64>,
}

#[derive(Deserialize)]
struct File<'a> {
    #[serde(borrow)]
    source: FileSource<'a>,
    line: Option<FileLine>,
    frequencies_hz: Vec<f64>,
    #[serde(borrow)]
    segments: Vec<FileSegment<'a>>,
    #[serde(borrow)]
    terminations: Vec<FileTermination<'a>>,
}

/// A checked plain line file.
#[derive(Debug)]
pub struct PlainLineTree<'a> {
    /// Names of the nodes: the source's first, then in the order in which the segments name them.
    pub names: Vec<Cow<'a, str>>,
    /// Position in the tree of each node.
    pub position_of: Vec<usize>,
    /// The tree, rooted at the source's node.
    pub tree: SignalTree,
    /// The source.
    pub source: Source,
    /// Frequencies in hertz, as given.
    pub frequencies_hz: Vec<f64>,
}

/// The lines of a file, each kept once.
#[derive(Default)]
struct Lines {
    kept: Vec<Line>,
    number_of: BTreeMap<[u64; 5], usize>,
}

impl Lines {
    fn number(&mut self, line: FileLine, place: impl Fn() -> String) -> Result<usize> {
        let FileLine { r_ohm_per_m, l_h_per_m, c_f_per_m, g_s_per_m, skin_corner_hz } = line;
        // A corner of NaN cannot be in a file, so it stands for none.
        let key = [r_ohm_per_m, l_h_per_m, c_f_per_m, g_s_per_m, skin_corner_hz.unwrap_or(f64::NAN)]
            .map(f64::to_bits);
        if let Some(&number) = self.number_of.get(&key) {
            return Ok(number);
        }
        let law =
            PlainLine { r_ohm_per_m, l_h_per_m, c_f_per_m, g_s_per_m, skin_corner_hz, loss_tangent: 0.0 };
        let line =
            Line::new(LineLaw::Plain(law)).map_err(|error| PlainFault(format!("{}: {error}", place())))?;
        self.kept.push(line);
        self.number_of.insert(key, self.kept.len() - 1);
        Ok(self.kept.len() - 1)
    }
}

/// From a name to its number.
struct Numbers<'n> {
    #[expect(clippy::disallowed_types, reason = "only looked up, never iterated: its order cannot show")]
    of: std::collections::HashMap<&'n str, usize>,
}

impl<'n> Numbers<'n> {
    /// The number of `name`, which is the next one if it is new.
    fn number(&mut self, name: &'n str) -> usize {
        let next = self.of.len();
        *self.of.entry(name).or_insert(next)
    }
}

impl<'a> PlainLineTree<'a> {
    /// Reads and checks the text of a plain line file.
    ///
    /// # Errors
    /// Text that is not JSON, or not of this form, with line and column; or the place of the first value
    /// that does not fit (`segments[3]: ...`).
    pub fn parse(text: &'a [u8]) -> Result<Self> {
        let text = text.strip_prefix(b"\xef\xbb\xbf").unwrap_or(text);
        if text.iter().all(u8::is_ascii_whitespace) {
            return Err(PlainFault(String::from("it is empty: a plain line file in JSON is asked for")));
        }
        let file: File<'a> = serde_json::from_slice(text)?;
        if file.frequencies_hz.is_empty() {
            return Err(PlainFault(String::from(
                "frequencies_hz: the list is empty, must hold at least one frequency",
            )));
        }
        for (number, &frequency_hz) in file.frequencies_hz.iter().enumerate() {
            check_frequency_hz(frequency_hz)
                .map_err(|error| PlainFault(format!("frequencies_hz[{number}]: {error}")))?;
        }
        let impedance_ohm = file.source.impedance_ohm;
        if !(0.0..=1e12).contains(&impedance_ohm) {
            return Err(PlainFault(format!(
                "source: impedance_ohm is {impedance_ohm:?}, must be between 0 and 1e12"
            )));
        }

        let mut lines = Lines::default();
        let default_line = match file.line {
            Some(line) => Some(lines.number(line, || "line".into())?),
            None => None,
        };
        let mut line_of = Vec::with_capacity(file.segments.len());
        for (number, segment) in file.segments.iter().enumerate() {
            let own = match segment.line {
                Some(line) => Some(lines.number(line, || format!("segments[{number}].line"))?),
                None => default_line,
            };
            line_of.push(own.ok_or_else(|| {
                PlainFault(format!(
                    "segments[{number}]: has no line of its own, and the file no default line"
                ))
            })?);
        }

        let mut numbers = Numbers { of: std::iter::empty().collect() };
        numbers.number(&file.source.node.0);
        let ends: Vec<(usize, usize)> = file
            .segments
            .iter()
            .map(|segment| (numbers.number(&segment.from.0), numbers.number(&segment.to.0)))
            .collect();
        let nodes = numbers.of.len();
        let ordered = order_from(nodes, 0, &ends).map_err(|error| in_words(error, &file, &ends))?;
        let mut position_of = vec![0; nodes];
        for (position, &node) in ordered.node.iter().enumerate() {
            position_of[node] = position;
        }
        let branches = ordered
            .parent
            .iter()
            .zip(&ordered.segment)
            .map(|(&parent, &segment)| Branch {
                parent,
                line: line_of[segment],
                length_m: file.segments[segment].length_m,
                entry: None,
            })
            .collect();
        let mut tree = SignalTree::new(lines.kept, branches).map_err(|error| match error {
            TreeError::Value { node, error } => {
                PlainFault(format!("segments[{}]: {error}", ordered.segment[node - 1]))
            }
            other => PlainFault(format!("{other}")),
        })?;
        for (number, termination) in file.terminations.iter().enumerate() {
            let name = &termination.node.0;
            let node = *numbers.of.get(name.as_ref()).ok_or_else(|| {
                PlainFault(format!(
                    "terminations[{number}]: node {name:?} is neither the source's nor at a segment"
                ))
            })?;
            let load = Shunt::Load {
                resistance_ohm: termination.resistance_ohm,
                series_capacitance_f: termination.series_capacitance_f,
                parallel_capacitance_f: termination.parallel_capacitance_f.unwrap_or(0.0),
            };
            tree.add_shunt(position_of[node], load).map_err(|error| match error {
                TreeError::Value { error, .. } => {
                    PlainFault(format!("terminations[{number}] ({name:?}): {error}"))
                }
                other => PlainFault(format!("terminations[{number}]: {other}")),
            })?;
        }

        let mut names = vec![Cow::Borrowed(""); nodes];
        names[0] = file.source.node.0;
        for (segment, &(from, to)) in file.segments.into_iter().zip(&ends) {
            names[from] = segment.from.0;
            names[to] = segment.to.0;
        }
        let source = Source { node: 0, impedance_ohm };
        Ok(Self { names, position_of, tree, source, frequencies_hz: file.frequencies_hz })
    }
}

/// A fault of the tree with the names of the file.
fn in_words(error: OrderError, file: &File<'_>, ends: &[(usize, usize)]) -> PlainFault {
    match error {
        OrderError::Loop { segment } => {
            let FileSegment { from, to, .. } = &file.segments[segment];
            let fault = if from.0 == to.0 {
                "joins a node with itself"
            } else {
                "closes a loop; only trees can be solved"
            };
            PlainFault(format!("segments[{segment}] ({:?} to {:?}): {fault}", from.0, to.0))
        }
        OrderError::Unreached { node } => {
            let segment = ends.iter().position(|&(from, to)| from == node || to == node).unwrap_or(0);
            let FileSegment { from, to, .. } = &file.segments[segment];
            let source = &file.source.node.0;
            PlainFault(format!(
                "segments[{segment}] ({:?} to {:?}): not connected to the source's node {source:?}",
                from.0, to.0
            ))
        }
        other @ OrderError::UnknownNode { .. } => PlainFault(format!("{other}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = r#"{"source": {"node": "src", "impedance_ohm": 100.0},
        "line": {"r_ohm_per_m": 0.176, "l_h_per_m": 6e-07, "c_f_per_m": 5e-11, "g_s_per_m": 0.0, "skin_corner_hz": 60000.0},
        "frequencies_hz": [300.0, 1e6],
        "segments": [{"from": "tap", "to": "end", "length_m": 20.0, "line": {"r_ohm_per_m": 0.09, "l_h_per_m": 7e-07, "c_f_per_m": 6e-11, "g_s_per_m": 0.0}},
                     {"from": "src", "to": "end", "length_m": 100}],
        "terminations": [{"node": "end", "resistance_ohm": 120.0, "parallel_capacitance_f": 1e-10}], "note": [{}]}"#;

    fn fault(change: (&str, &str)) -> String {
        let text = GOOD.replacen(change.0, change.1, 1);
        assert_ne!(text, GOOD, "the change must change something");
        PlainLineTree::parse(text.as_bytes()).unwrap_err().to_string()
    }

    #[test]
    fn reads_any_order_and_direction() {
        let file = PlainLineTree::parse(GOOD.as_bytes()).unwrap();
        assert_eq!(file.names, ["src", "tap", "end"]);
        assert_eq!(file.position_of, [0, 2, 1]);
        assert_eq!(file.tree.branches()[0].length_m, 100.0);
        assert_eq!(file.tree.lines().len(), 2);
        assert_eq!(file.tree.lines()[file.tree.branches()[1].line].at(1.0).r_ohm_per_m, 0.09);
        assert_eq!(file.tree.shunts()[0].0, 1);
    }

    #[test]
    fn a_source_alone_is_a_tree() {
        let text = r#"{"source": {"node": "s", "impedance_ohm": 50}, "frequencies_hz": [1],
            "segments": [], "terminations": [{"node": "s", "resistance_ohm": 50}]}"#;
        assert_eq!(PlainLineTree::parse(text.as_bytes()).unwrap().names, ["s"]);
    }

    #[test]
    fn every_fault_names_its_place() {
        let cases = [
            (("\"impedance_ohm\": 100.0", "\"impedance_ohm\": -1"), "source: impedance_ohm is -1.0"),
            (("\"impedance_ohm\"", "\"impedance\""), "unknown field `impedance`"),
            (("\"impedance_ohm\": 100.0", "\"impedance_ohm\": 1e999"), "number out of range"),
            (("[300.0, 1e6]", "[]"), "frequencies_hz: the list is empty"),
            (("\"frequencies_hz\"", "\"frequencies\""), "missing field `frequencies_hz`"),
            (("[300.0", "[0"), "frequencies_hz[0]: frequency_hz is 0.0, must be above 0"),
            (("1e6]", "-5]"), "frequencies_hz[1]: frequency_hz is -5.0"),
            (("1e6]", "1.1e10]"), "frequencies_hz[1]: frequency_hz is 11000000000.0"),
            (("1e6]", "NaN]"), "expected value"),
            (("\"c_f_per_m\": 5e-11", "\"c_f_per_m\": 0"), "line: c_f_per_m is 0.0, must be above 0"),
            (("\"c_f_per_m\": 6e-11", "\"c_f_per_m\": -1"), "segments[0].line: c_f_per_m is -1.0"),
            (("\"r_ohm_per_m\": 0.176", "\"r_ohm_per_m\": -0.176"), "line: r_ohm_per_m is -0.176"),
            ((", \"g_s_per_m\": 0.0}", "}"), "missing field `g_s_per_m`"),
            (("skin_corner_hz", "skin_corner"), "unknown field `skin_corner`"),
            (("\"skin_corner_hz\": 60000.0", "\"skin_corner_hz\": 0"), "line: skin_corner_hz is 0.0"),
            (
                ("\"line\": {\"r_ohm_per_m\": 0.176", "\"lines\": {\"r_ohm_per_m\": 0.176"),
                "segments[1]: has no line",
            ),
            (("\"length_m\": 100", "\"length_m\": -100"), "segments[1]: length_m is -100.0"),
            (("\"length_m\": 100", "\"lenght_m\": 100"), "unknown field `lenght_m`"),
            (("\"length_m\": 100", "\"length_m\": 1, \"length_m\": 2"), "duplicate field `length_m`"),
            (("\"from\": \"src\"", "\"from\": \"far\""), "segments[0] (\"tap\" to \"end\"): not connected"),
            (("\"from\": \"src\"", "\"from\": \"tap\""), "not connected to the source's node \"src\""),
            (("\"from\": \"tap\", \"to\": \"end\"", "\"from\": \"src\", \"to\": \"end\""), "closes a loop"),
            (("\"from\": \"tap\", \"to\": \"end\"", "\"from\": \"end\", \"to\": \"end\""), "with itself"),
            (("{\"node\": \"end\"", "{\"node\": \"nowhere\""), "terminations[0]: node \"nowhere\""),
            (
                ("\"resistance_ohm\": 120.0", "\"resistance_ohm\": 0"),
                "terminations[0] (\"end\"): resistance_ohm is 0.0",
            ),
            (
                ("parallel_capacitance_f", "series_capacitance_f\": 0, \"parallel_capacitance_f"),
                "series_capacitance_f is 0.0",
            ),
            (("parallel_capacitance_f", "capacitance_f"), "unknown field `capacitance_f`"),
        ];
        for (change, expected) in cases {
            let message = fault(change);
            assert!(message.contains(expected), "{change:?}: {message}");
        }
    }

    #[test]
    fn hostile_text_is_an_error() {
        let deep = format!("{{\"x\": {}1{}}}", "[".repeat(100_000), "]".repeat(100_000));
        let cases: [&[u8]; 5] = [b"", b"{", b"null", b"{\"segments\": \"\xff\"}", deep.as_bytes()];
        for text in cases {
            assert!(PlainLineTree::parse(text).is_err());
        }
    }
}
