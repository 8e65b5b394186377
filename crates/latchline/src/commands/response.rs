//! `latchline response`: frequency response of a plain line file.

use std::io::{BufWriter, Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use crate::files::{cannot_use, read_bytes};
use crate::refusal::{Refused, Result};
use clap::Args;
use latchline_circuit::signal::{Response, Shunt, Workspace, respond, straight_gain_db};

use crate::plain_line::PlainLineTree;
use latchline_words::refusals::SystemRefusal;

/// Signal along cables that branch, from a plain line file (JSON)
///
/// Prints, for every node and frequency, gain and phase against the open-circuit voltage of the source. Where a device
/// is connected it prints the insertion gain too: the level compared with the same device wired straight to the source.
/// The result is JSON. Exit status 0: calculated; 2: the file cannot be used.
#[derive(Args, Debug)]
pub struct ResponseArguments {
    /// The plain line file; `-` reads standard input
    pub file: PathBuf,
}

/// Runs the command: reads `arguments.file` (`-`: `input`) and writes JSON to `output`.
///
/// # Errors
/// A file that cannot be read or used (exit status 2 is the caller's), or an output that cannot be
/// written.
pub fn run(arguments: &ResponseArguments, input: &mut dyn Read, output: &mut dyn Write) -> Result<ExitCode> {
    let text = read_bytes(&arguments.file, input)?;
    let file = PlainLineTree::parse(&text).refused(|| cannot_use(&arguments.file))?;
    let response = respond(&file.tree, file.source, &file.frequencies_hz, &mut Workspace::default())?;
    let mut writer = BufWriter::with_capacity(1 << 16, output);
    write(&file, &response, &mut writer)
        .and_then(|()| writer.flush())
        .refused(|| SystemRefusal::CannotWriteResult)?;
    Ok(ExitCode::SUCCESS)
}

fn write(file: &PlainLineTree<'_>, response: &Response, writer: &mut impl Write) -> std::io::Result<()> {
    let mut loads: Vec<Vec<Shunt>> = vec![Vec::new(); file.tree.node_count()];
    for (node, load) in file.tree.shunts() {
        loads[*node].push(*load);
    }
    let (mut line, mut gains_db) = (Vec::new(), Vec::new());
    writer.write_all(b"{\"nodes\": [")?;
    for (number, (name, &node)) in file.names.iter().zip(&file.position_of).enumerate() {
        line.clear();
        line.extend_from_slice(if number == 0 { b"\n" } else { b",\n" });
        line.extend_from_slice(b"{\"id\": ");
        serde_json::to_writer(&mut line, name)?;
        let count = file.frequencies_hz.len();
        gains_db.clear();
        gains_db.extend((0..count).map(|k| response.gain_db(node, k)));
        put_list(&mut line, "gain_db", gains_db.iter().copied())?;
        put_list(&mut line, "phase_deg", (0..count).map(|k| response.phase_deg(node, k)))?;
        if !loads[node].is_empty() {
            let insertion_gain_db =
                gains_db.iter().zip(&file.frequencies_hz).map(|(gain_db, &frequency_hz)| {
                    gain_db - straight_gain_db(&loads[node], file.source.impedance_ohm, frequency_hz)
                });
            put_list(&mut line, "insertion_gain_db", insertion_gain_db)?;
        }
        line.push(b'}');
        writer.write_all(&line)?;
    }
    writer.write_all(b"]}\n")
}

fn put_list(line: &mut Vec<u8>, key: &str, values: impl Iterator<Item = f64>) -> std::io::Result<()> {
    write!(line, ", \"{key}\": [")?;
    for (k, value) in values.enumerate() {
        if k > 0 {
            line.extend_from_slice(b", ");
        }
        put_number(line, value)?;
    }
    line.push(b']');
    Ok(())
}

/// A number with nine decimals: a billionth of a decibel or degree is beyond any use, and fixed decimals are
/// several times quicker to write than the shortest that read back the same.
fn put_number(line: &mut Vec<u8>, value: f64) -> std::io::Result<()> {
    // Up to here a double still resolves the ninth decimal.
    if value.abs() >= 4e6 {
        return Ok(serde_json::to_writer(line, &value)?);
    }
    let mut rest = (value.abs() * 1e9 + 0.5) as u64;
    let negative = value < 0.0 && rest > 0;
    // Sign, seven digits, point, nine digits, filled from the end.
    let mut text = [b'0'; 18];
    let mut at = text.len();
    for _ in 0..9 {
        at -= 1;
        text[at] += (rest % 10) as u8;
        rest /= 10;
    }
    at -= 1;
    text[at] = b'.';
    loop {
        at -= 1;
        text[at] += (rest % 10) as u8;
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    if negative {
        at -= 1;
        text[at] = b'-';
    }
    line.extend_from_slice(&text[at..]);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_with_nine_decimals() {
        for value in [0.0, -0.0, 1.0, -6.020599913279624, 179.99999999, 1e-10, -1e-12, 123456.789, -0.5] {
            let mut line = Vec::new();
            put_number(&mut line, value).unwrap();
            let want = format!("{value:.9}");
            let want = if want == "-0.000000000" { "0.000000000".to_owned() } else { want };
            assert_eq!(String::from_utf8(line).unwrap(), want);
        }
        let mut line = Vec::new();
        put_number(&mut line, -1.25e300).unwrap();
        assert_eq!(String::from_utf8(line).unwrap().parse::<f64>().unwrap(), -1.25e300);
    }

    fn solve(text: &str) -> serde_json::Value {
        let mut output = Vec::new();
        let arguments = ResponseArguments { file: "-".into() };
        run(&arguments, &mut text.as_bytes(), &mut output).unwrap();
        serde_json::from_slice(&output).unwrap()
    }

    /// A perfect matched line reads -6.02 dB of gain and 0 dB of insertion gain (half the open-circuit voltage).
    #[test]
    fn matched_line() {
        let out = solve(
            r#"{"source": {"node": "a", "impedance_ohm": 100}, "frequencies_hz": [1e3, 1e6, 7e6],
            "line": {"r_ohm_per_m": 0, "l_h_per_m": 5e-7, "c_f_per_m": 5e-11, "g_s_per_m": 0},
            "segments": [{"from": "a", "to": "b\"", "length_m": 50}],
            "terminations": [{"node": "b\"", "resistance_ohm": 100}]}"#,
        );
        assert_eq!(out["nodes"][0]["id"], "a");
        assert!(out["nodes"][0].get("insertion_gain_db").is_none());
        let end = &out["nodes"][1];
        assert_eq!(end["id"], "b\"");
        for k in 0..3 {
            assert!((end["gain_db"][k].as_f64().unwrap() + 6.020_599_913).abs() < 1e-9);
            assert_eq!(end["insertion_gain_db"][k].as_f64().unwrap(), 0.0);
        }
        // 250 ns of delay at 1 MHz: a quarter turn.
        assert!((end["phase_deg"][1].as_f64().unwrap() + 90.0).abs() < 1e-9);
    }
}
