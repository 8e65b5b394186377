//! Input from outside that nobody meant: the kept inputs of `fuzz/corpus`, and changes of them.
//!
//! The functions are those that `scripts/fuzz` runs for long, led by what they reach; here they are led by nothing, and are tried for
//! seconds. What is looked for: a panic, an input that does not end, an answer that gives no reason.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

#[path = "../../../fuzz/src/lib.rs"]
#[allow(dead_code, reason = "the programs of the fuzzer look targets up by their names")]
mod fuzz;

use crate::common::repository_file;
use fuzz::{TARGETS, Target};
use std::path::PathBuf;
use std::sync::mpsc;
use std::time::Duration;

/// Seed of the changes; another one tries others.
const SEED: u64 = 20_261_130;
/// After so long an input is taken not to end, also here on a busy machine; the fuzzer takes a second.
const PATIENCE: Duration = Duration::from_secs(10);
/// Longest input, in bytes.
const LONGEST: usize = 16_384;
/// What is put in: ends of texts and tables, numbers at the ends of what can be held, letters of several bytes.
const PIECES: [&str; 22] = [
    "\"",
    "'",
    "\\",
    "[",
    "]]",
    "{",
    "}",
    "=",
    "\n",
    "\r\n",
    ",",
    "-1",
    "0",
    "1e400",
    "1e-320",
    "NaN",
    "18446744073709551616",
    "\u{feff}",
    "\u{202e}",
    "é",
    "\0",
    " m",
];

/// Numbers that look random and are the same everywhere (SplitMix64, by Steele, Lea and Flood; from memory).
struct Random(u64);

impl Random {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % most.max(1) as u64) as usize
    }

    fn range(&mut self, of: &[u8]) -> std::ops::Range<usize> {
        let start = self.below(of.len() + 1);
        let end = (start + self.below(40)).min(of.len());
        start..end
    }
}

/// The input with one to four changes.
fn changed(input: &[u8], other: &[u8], random: &mut Random) -> Vec<u8> {
    let mut out = input.to_vec();
    for _ in 0..=random.below(4) {
        let range = random.range(&out);
        match random.below(7) {
            0 => drop(out.drain(range)),
            1 => out.truncate(range.start),
            2 => {
                let piece = other[random.range(other)].to_vec();
                out.splice(range, piece);
            }
            3 => {
                let again = out[range.clone()].repeat(2 + random.below(20));
                out.splice(range, again);
            }
            4 => {
                if let Some(byte) = out.get_mut(range.start) {
                    *byte ^= 1 << random.below(8);
                }
            }
            5 => {
                // A digit for another one, where there is one.
                let digits: Vec<usize> = (0..out.len()).filter(|at| out[*at].is_ascii_digit()).collect();
                if !digits.is_empty() {
                    out[digits[random.below(digits.len())]] = b'0' + u8::try_from(random.below(10)).unwrap();
                }
            }
            _ => {
                let piece = PIECES[random.below(PIECES.len())].bytes();
                out.splice(range.start..range.start, piece);
            }
        }
    }
    out.truncate(LONGEST);
    out
}

/// The kept inputs of a target, by name.
fn kept(target: &Target) -> Vec<(String, Vec<u8>)> {
    let folder = repository_file("fuzz/corpus").join(target.name);
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    let name = |file: &PathBuf| file.file_name().unwrap().to_string_lossy().into_owned();
    files.iter().map(|file| (name(file), std::fs::read(file).unwrap())).collect()
}

/// Tries inputs one after the other; each has its time.
fn tried(target: &Target, inputs: impl Iterator<Item = (String, Vec<u8>)>) {
    let (give, given) = mpsc::channel::<Vec<u8>>();
    let (tell, told) = mpsc::channel();
    let run = target.run;
    std::thread::spawn(move || {
        for input in given {
            let outcome = std::panic::catch_unwind(|| run(&input)).is_ok();
            // Who gave it may have given up.
            let _: Result<(), mpsc::SendError<bool>> = tell.send(outcome);
        }
    });
    for (name, input) in inputs {
        give.send(input.clone()).unwrap();
        let what = match told.recv_timeout(PATIENCE) {
            Ok(true) => continue,
            Ok(false) => "panics",
            Err(_) => "does not end",
        };
        let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("hard-use-{}", target.name));
        std::fs::write(&file, &input).unwrap();
        panic!("{} {what} on {name} (seed {SEED}): {}", target.name, file.display());
    }
}

#[test]
fn kept_inputs_are_answered() {
    for target in &TARGETS {
        let kept = kept(target);
        assert!(!kept.is_empty(), "{}: none is kept", target.name);
        tried(target, kept.into_iter());
    }
}

#[test]
fn changed_inputs_are_answered() {
    println!("seed {SEED}");
    for target in &TARGETS {
        let kept = kept(target);
        let mut random = Random(SEED);
        let changes = (0..target.tries).map(|number| {
            let (name, input) = &kept[random.below(kept.len())];
            let (_, other) = &kept[random.below(kept.len())];
            (format!("change {number} of {name}"), changed(input, other, &mut random))
        });
        tried(target, changes);
    }
}
