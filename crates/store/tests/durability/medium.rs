//! What is left on a medium when the power goes: all that was synced, and of the rest any part.

use std::collections::BTreeMap;

/// Bytes that a medium writes all or not at all.
const SECTOR_BYTES: usize = 512;

/// What was done to files, in order.
#[derive(Debug, Clone)]
pub enum Happened {
    /// Bytes were written at a place.
    Written { file: String, at: usize, bytes: Vec<u8> },
    /// The file was cut off or extended to so many bytes.
    CutOff { file: String, bytes: usize },
    /// All before is on the medium.
    Synced { file: String },
    /// The file was removed.
    Removed { file: String },
    /// The live file is written aside.
    LiveWritten(Vec<u8>),
    /// What was written aside is on the medium.
    LiveSynced,
    /// It took the live file's place.
    LiveRenamed,
    /// The renaming is on the medium.
    LiveFolderSynced,
    /// So many changes were acknowledged.
    Acknowledged(usize),
}

/// A small generator of numbers (SplitMix64, public domain), for cuts that are the same in every run.
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % below.max(1) as u64) as usize
    }
}

/// A file: what is on the medium, and what was done since.
#[derive(Debug, Clone, Default)]
struct File {
    durable: Vec<u8>,
    is_there: bool,
    since: Vec<Happened>,
}

/// The medium.
#[derive(Debug, Clone, Default)]
pub struct Medium {
    files: BTreeMap<String, File>,
    live: Option<Vec<u8>>,
    aside: Option<(Vec<u8>, bool)>,
    is_renamed: bool,
    /// Changes that were acknowledged so far.
    pub acknowledged: usize,
    /// Whether syncing does what it says.
    syncs: bool,
}

fn write(bytes: &mut Vec<u8>, at: usize, new: &[u8]) {
    if bytes.len() < at + new.len() {
        bytes.resize(at + new.len(), 0);
    }
    bytes[at..at + new.len()].copy_from_slice(new);
}

impl Medium {
    /// An empty one.
    pub fn new(syncs: bool) -> Self {
        Medium { syncs, ..Medium::default() }
    }

    /// One thing more happens.
    pub fn follow(&mut self, happened: &Happened) {
        match happened {
            Happened::Written { file, .. } | Happened::CutOff { file, .. } => {
                self.files.entry(file.clone()).or_default().since.push(happened.clone());
            }
            Happened::Synced { file } if self.syncs => {
                let file = self.files.entry(file.clone()).or_default();
                file.is_there = true;
                for one in std::mem::take(&mut file.since) {
                    match one {
                        Happened::Written { at, bytes, .. } => write(&mut file.durable, at, &bytes),
                        Happened::CutOff { bytes, .. } => file.durable.resize(bytes, 0),
                        _ => {}
                    }
                }
            }
            Happened::Removed { file } => {
                self.files.remove(file);
            }
            Happened::LiveWritten(bytes) => self.aside = Some((bytes.clone(), false)),
            Happened::LiveSynced => {
                if let Some((_, is_synced)) = &mut self.aside {
                    *is_synced = self.syncs;
                }
            }
            Happened::LiveRenamed => self.is_renamed = true,
            Happened::LiveFolderSynced => {
                if let (true, Some((bytes, true))) = (self.syncs, &self.aside) {
                    self.live = Some(bytes.clone());
                    (self.aside, self.is_renamed) = (None, false);
                }
            }
            Happened::Acknowledged(count) => self.acknowledged = *count,
            Happened::Synced { .. } => {}
        }
    }

    /// The files as they are found after the power went: of what was not synced each write is there, not there, or there in part.
    pub fn after_the_power_went(&self, dice: &mut Dice) -> (BTreeMap<String, Vec<u8>>, Option<Vec<u8>>) {
        let mut left = BTreeMap::new();
        for (name, file) in &self.files {
            // A new file may be missing altogether.
            if !file.is_there && dice.next(4) == 0 {
                continue;
            }
            let mut bytes = file.durable.clone();
            for one in &file.since {
                match (one, dice.next(3)) {
                    (_, 0) => {}
                    (Happened::Written { at, bytes: new, .. }, 1) => {
                        let sectors = dice.next(new.len() / SECTOR_BYTES + 1);
                        write(&mut bytes, *at, &new[..new.len().min(sectors * SECTOR_BYTES)]);
                    }
                    (Happened::Written { at, bytes: new, .. }, _) => write(&mut bytes, *at, new),
                    (Happened::CutOff { bytes: length, .. }, _) => bytes.resize(*length, 0),
                    _ => {}
                }
            }
            left.insert(name.clone(), bytes);
        }
        let live = match &self.aside {
            Some((bytes, is_synced)) if self.is_renamed && dice.next(2) == 0 => {
                let length = if *is_synced { bytes.len() } else { dice.next(bytes.len()) };
                Some(bytes[..length].to_vec())
            }
            _ => self.live.clone(),
        };
        (left, live)
    }
}
