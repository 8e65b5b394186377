//! The plain network file: a bare electrical tree in JSON, for other tools, benches and checks.
//!
//! ```json
//! {
//!   "source": {"node": "src", "voltage_v": 48.0, "source_resistance_ohm": 0.5},
//!   "nodes": ["src", "a"],
//!   "segments": [{"from": "src", "to": "a", "length_m": 25.0, "loop_resistance_ohm": 4.0}],
//!   "loads": [{"node": "a", "kind": "power", "value": 20.0}]
//! }
//! ```
//!
//! The source is an ideal voltage behind a resistance and feeds its node, the root. Segments come in any
//! order and direction; `loop_resistance_ohm` counts both conductors. Loads are `power` in W, `current` in
//! A or `resistance` in ohm. Other keys at the top are ignored; an unknown key further in is an error,
//! since a misspelt one would silently become zero.

use std::borrow::Cow;

use latchline_circuit::flow::{
    BuildError, BuiltTree, LoadElement, LoadError, LoadKind, Loads, SegmentEnds, Source,
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
    voltage_v: f64,
    source_resistance_ohm: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileSegment<'a> {
    #[serde(borrow)]
    from: Name<'a>,
    #[serde(borrow)]
    to: Name<'a>,
    length_m: Option<f64>,
    loop_resistance_ohm: f64,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FileLoadKind {
    Power,
    Current,
    Resistance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileLoad<'a> {
    #[serde(borrow)]
    node: Name<'a>,
    kind: FileLoadKind,
    value: f64,
}

#[derive(Deserialize)]
struct File<'a> {
    #[serde(borrow)]
    source: FileSource<'a>,
    #[serde(borrow)]
    nodes: Vec<Name<'a>>,
    #[serde(borrow)]
    segments: Vec<FileSegment<'a>>,
    #[serde(borrow)]
    loads: Vec<FileLoad<'a>>,
}

/// Sums of the loads of every node, in the order of the tree; an array without any load is empty.
#[derive(Debug, Default)]
pub struct NodeLoads {
    power_w: Vec<f64>,
    current_a: Vec<f64>,
    conductance_s: Vec<f64>,
}

impl NodeLoads {
    /// As the solver takes them.
    #[must_use]
    pub fn as_loads(&self) -> Loads<'_> {
        Loads {
            power_w: &self.power_w,
            current_a: &self.current_a,
            conductance_s: &self.conductance_s,
            drop_v: &[],
        }
    }
}

/// One segment as the file gives it: its two nodes by their place in the file.
#[derive(Clone, Copy, Debug)]
pub struct PlainSegment {
    /// Node named by `from`.
    pub from: u32,
    /// Node named by `to`.
    pub to: u32,
}

/// A checked plain network.
#[derive(Debug)]
pub struct PlainNetwork<'a> {
    /// Names of the nodes, in the order of the file.
    pub names: Vec<Cow<'a, str>>,
    /// Segments in the order of the file.
    pub segments: Vec<PlainSegment>,
    /// The tree, and the way from its order to the file's.
    pub built: BuiltTree,
    /// The source.
    pub source: Source,
    /// Every load by itself, at its position in the tree.
    pub elements: Vec<LoadElement>,
    /// The loads summed by node.
    pub loads: NodeLoads,
}

/// From a name to its place in the list of nodes.
struct Places<'n> {
    #[expect(clippy::disallowed_types, reason = "only looked up, never iterated: its order cannot show")]
    of: std::collections::HashMap<&'n str, u32>,
}

impl<'n> Places<'n> {
    fn new(names: &'n [Cow<'_, str>]) -> Result<Self> {
        let mut places = Self { of: std::iter::empty().collect() };
        places.of.reserve(names.len());
        for (place, name) in names.iter().enumerate() {
            let place = u32::try_from(place)
                .map_err(|_| PlainFault(String::from("nodes: more than can be numbered")))?;
            if let Some(first) = places.of.insert(name.as_ref(), place) {
                return Err(PlainFault(format!("nodes[{place}]: {name:?} is already nodes[{first}]")));
            }
        }
        Ok(places)
    }

    fn find(&self, name: &str, place: impl Fn() -> String) -> Result<u32> {
        match self.of.get(name) {
            Some(&node) => Ok(node),
            None => Err(PlainFault(format!("{}: node {name:?} is not in the list of nodes", place()))),
        }
    }
}

fn check_number(value: f64, least_excluded: bool, place: impl Fn() -> String) -> Result<()> {
    if value.is_finite() && (value > 0.0 || (value == 0.0 && !least_excluded)) {
        return Ok(());
    }
    let limit = if least_excluded { "> 0" } else { ">= 0" };
    Err(PlainFault(format!("{}: {value} must be finite and {limit}", place())))
}

impl<'a> PlainNetwork<'a> {
    /// Reads and checks the text of a plain network file.
    ///
    /// # Errors
    /// Text that is not JSON, or not of this form, with line and column; or the place of the first value
    /// that does not fit (`segments[3]: ...`).
    pub fn parse(text: &'a [u8]) -> Result<Self> {
        let text = text.strip_prefix(b"\xef\xbb\xbf").unwrap_or(text);
        if text.iter().all(u8::is_ascii_whitespace) {
            return Err(PlainFault(String::from("it is empty: a plain network file in JSON is asked for")));
        }
        let file: File<'a> = serde_json::from_slice(text)?;
        let names: Vec<Cow<'a, str>> = file.nodes.into_iter().map(|name| name.0).collect();
        let places = Places::new(&names)?;
        check_number(file.source.voltage_v, true, || "source.voltage_v".into())?;
        check_number(file.source.source_resistance_ohm, false, || "source.source_resistance_ohm".into())?;
        let root = places.find(&file.source.node.0, || "source.node".into())?;
        let source =
            Source { voltage_v: file.source.voltage_v, resistance_ohm: file.source.source_resistance_ohm };

        let mut segments = Vec::with_capacity(file.segments.len());
        let mut ends = Vec::with_capacity(file.segments.len());
        for (number, segment) in file.segments.iter().enumerate() {
            let from = places.find(&segment.from.0, || format!("segments[{number}].from"))?;
            let to = places.find(&segment.to.0, || format!("segments[{number}].to"))?;
            let resistance_ohm = segment.loop_resistance_ohm;
            check_number(resistance_ohm, false, || format!("segments[{number}].loop_resistance_ohm"))?;
            if let Some(length_m) = segment.length_m {
                check_number(length_m, false, || format!("segments[{number}].length_m"))?;
            }
            segments.push(PlainSegment { from, to });
            ends.push(SegmentEnds { from: from as usize, to: to as usize, resistance_ohm });
        }
        let built = BuiltTree::new(names.len(), root as usize, &ends)
            .map_err(|error| in_words(&error, &names, &segments))?;

        let mut elements = Vec::with_capacity(file.loads.len());
        for (number, load) in file.loads.iter().enumerate() {
            let node = places.find(&load.node.0, || format!("loads[{number}].node"))?;
            let kind = match load.kind {
                FileLoadKind::Power => LoadKind::Power,
                FileLoadKind::Current => LoadKind::Current,
                FileLoadKind::Resistance => LoadKind::Resistance,
            };
            check_number(load.value, kind == LoadKind::Resistance, || format!("loads[{number}].value"))?;
            elements.push(LoadElement { node: built.position_of[node as usize], kind, value: load.value });
        }
        let loads = sum_by_node(names.len(), &elements);
        loads.as_loads().check(names.len()).map_err(|error| sum_in_words(&error, &names, &built))?;
        Ok(Self { names, segments, built, source, elements, loads })
    }

    /// Values given in the order of the tree, in the order of the file.
    #[must_use]
    pub fn in_file_order(&self, by_position: &[f64]) -> Vec<f64> {
        self.built.position_of.iter().map(|&position| by_position[position as usize]).collect()
    }

    /// The name of the node at a position of the tree.
    #[must_use]
    pub fn name_at(&self, position: usize) -> &str {
        &self.names[self.built.node_at[position] as usize]
    }
}

fn sum_by_node(nodes: usize, elements: &[LoadElement]) -> NodeLoads {
    let mut loads = NodeLoads::default();
    for element in elements {
        let (into, value) = match element.kind {
            LoadKind::Power => (&mut loads.power_w, element.value),
            LoadKind::Current => (&mut loads.current_a, element.value),
            LoadKind::Resistance => (&mut loads.conductance_s, 1.0 / element.value),
        };
        if into.is_empty() {
            into.resize(nodes, 0.0);
        }
        into[element.node as usize] += value;
    }
    loads
}

/// A fault of the tree with the names of the file.
fn in_words(error: &BuildError, names: &[Cow<'_, str>], segments: &[PlainSegment]) -> PlainFault {
    let ends = |segment: usize| match segments.get(segment) {
        Some(s) => {
            format!("segments[{segment}] ({:?} to {:?})", names[s.from as usize], names[s.to as usize])
        }
        None => format!("segments[{segment}]"),
    };
    match error {
        BuildError::ToItself { segment, .. } => {
            PlainFault(format!("{} joins a node with itself", ends(*segment)))
        }
        BuildError::Duplicate { segment, again } => {
            PlainFault(format!("{} joins the same two nodes as segments[{segment}]", ends(*again)))
        }
        BuildError::Loop { segment } => {
            PlainFault(format!("{} closes a loop; only trees can be solved", ends(*segment)))
        }
        BuildError::Unreached { node } => {
            let name = names.get(*node).map_or("", |name| name.as_ref());
            PlainFault(format!("nodes[{node}]: no segments lead from the source to {name:?}"))
        }
        other => PlainFault(format!("{other}")),
    }
}

/// A sum of loads that is out of range (only by overflow: each value was checked).
fn sum_in_words(error: &LoadError, names: &[Cow<'_, str>], built: &BuiltTree) -> PlainFault {
    match error {
        LoadError::Value { quantity, node, value } => {
            let name = &names[built.node_at[*node] as usize];
            PlainFault(format!("loads of node {name:?}: {quantity} in all is {value}; it must be finite"))
        }
        other => PlainFault(format!("{other}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = r#"{"id": "x", "source": {"node": "src", "voltage_v": 48.0, "source_resistance_ohm": 0.5},
        "nodes": ["b", "src", "a\u00e4"],
        "segments": [{"from": "a\u00e4", "to": "b", "loop_resistance_ohm": 5},
                     {"from": "src", "to": "a\u00e4", "length_m": 25.0, "loop_resistance_ohm": 4.0}],
        "loads": [{"node": "b", "kind": "power", "value": 20.0}, {"node": "b", "kind": "power", "value": 1},
                  {"node": "b", "kind": "resistance", "value": 500}],
        "expected": {"anything": [1, 2, {}]}}"#;

    fn fault(change: (&str, &str)) -> String {
        let text = GOOD.replace(change.0, change.1);
        assert_ne!(text, GOOD, "the change must change something");
        PlainNetwork::parse(text.as_bytes()).unwrap_err().to_string()
    }

    #[test]
    fn reads_any_order_and_sums_by_node() {
        let network = PlainNetwork::parse(GOOD.as_bytes()).unwrap();
        assert_eq!(network.name_at(0), "src");
        assert_eq!(network.name_at(1), "aä");
        assert_eq!(network.built.tree.resistances_ohm()[1..], [4.0, 5.0]);
        let loads = network.loads.as_loads();
        assert_eq!(loads.power_w, [0.0, 0.0, 21.0]);
        assert_eq!(loads.conductance_s, [0.0, 0.0, 0.002]);
        assert!(loads.current_a.is_empty());
        assert_eq!(network.in_file_order(&[0.0, 1.0, 2.0]), [2.0, 0.0, 1.0]);
        assert!(PlainNetwork::parse(format!("\u{feff}{GOOD}").as_bytes()).is_ok());
    }

    #[test]
    fn every_fault_names_its_place() {
        let cases = [
            (("\"voltage_v\": 48.0", "\"voltage_v\": -48.0"), "source.voltage_v: -48 must be finite and > 0"),
            (("\"voltage_v\": 48.0", "\"voltage_v\": 1e999"), "number out of range"),
            (("\"voltage_v\": 48.0", "\"voltage_v\": NaN"), "expected value"),
            (("\"voltage_v\": 48.0", "\"voltage_v\": null"), "invalid type: null"),
            (("\"voltage_v\"", "\"voltage\""), "unknown field `voltage`"),
            (("\"source_resistance_ohm\": 0.5", "\"voltage_v\": 1"), "duplicate field `voltage_v`"),
            ((", \"source_resistance_ohm\": 0.5", ""), "missing field `source_resistance_ohm`"),
            (("\"loads\"", "\"load\""), "missing field `loads`"),
            (("length_m", "lenght_m"), "unknown field `lenght_m`"),
            (("\"length_m\": 25.0", "\"length_m\": -25.0"), "segments[1].length_m: -25"),
            (("ohm\": 5}", "ohm\": -5}"), "segments[0].loop_resistance_ohm: -5 must be finite and >= 0"),
            (
                ("\"kind\": \"power\", \"value\": 20.0", "\"kind\": \"power\", \"value\": -20.0"),
                "loads[0].value",
            ),
            (("\"value\": 500", "\"value\": 0"), "loads[2].value: 0 must be finite and > 0"),
            (("\"value\": 500", "\"value\": 1e-320"), "loads of node \"b\": conductance in S in all is inf"),
            (("\"kind\": \"resistance\"", "\"kind\": \"heat\""), "unknown variant `heat`"),
            (("\"kind\": \"resistance\"", "\"color\": 1, \"kind\": \"resistance\""), "unknown field `color`"),
            (("{\"node\": \"src\"", "{\"node\": \"nowhere\""), "source.node: node \"nowhere\""),
            (("\"to\": \"b\"", "\"to\": \"c\""), "segments[0].to: node \"c\" is not in the list"),
            (("[\"b\", \"src\"", "[\"b\", \"src\", \"src\""), "nodes[2]: \"src\" is already nodes[1]"),
            (
                ("[\"b\", \"src\"", "[\"b\", \"far\", \"src\""),
                "nodes[1]: no segments lead from the source to \"far\"",
            ),
            (
                ("\"to\": \"b\"", "\"to\": \"src\""),
                "segments[1] (\"src\" to \"aä\") joins the same two nodes as segments[0]",
            ),
            (("\"to\": \"b\"", "\"to\": \"a\\u00e4\""), "joins a node with itself"),
        ];
        for (change, expected) in cases {
            let message = fault(change);
            assert!(message.contains(expected), "{change:?}: {message}");
        }
    }

    #[test]
    fn a_loop_is_named() {
        let text = GOOD.replace(
            "\"segments\": [",
            "\"segments\": [{\"from\": \"b\", \"to\": \"src\", \"loop_resistance_ohm\": 1},",
        );
        let message = PlainNetwork::parse(text.as_bytes()).unwrap_err().to_string();
        assert!(message.contains("closes a loop; only trees can be solved"), "{message}");
    }

    #[test]
    fn hostile_text_is_an_error() {
        let deep = format!("{{\"x\": {}1{}}}", "[".repeat(100_000), "]".repeat(100_000));
        let cases: [&[u8]; 6] = [b"", b"{", b"null", b"[[[]]]", b"{\"nodes\": \"\xff\"}", deep.as_bytes()];
        for text in cases {
            assert!(PlainNetwork::parse(text).is_err());
        }
        assert!(PlainNetwork::parse(format!("{GOOD} x").as_bytes()).is_err());
    }
}
