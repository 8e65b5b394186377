//! `latchline store`: what is kept in a folder: listed, checked, copied, brought back.

use crate::date;
use crate::files::{FolderLock, LiveFiles, create_by};
use crate::refusal::{Refused, Result};
use clap::{Args, Subcommand};
use latchline_finding::shown;
use latchline_store::{SCHEMA_VERSION, Settled, Signed, Sqlite, Store};
use latchline_words::refusals::StoreRefusal;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The store of a folder.
pub const STORE_NAME: &str = "latchline.db";

/// List, check, back up or restore the store of a folder
///
/// The office page keeps every edit of every site of a folder in its store, the file latchline.db. A backup is one file with all of it: sites,
/// every revision, named states, answers on the telephone. It is made while the page is open, too; copying latchline.db by other means may
/// copy half an edit.
#[derive(Debug, Args)]
pub struct StoreArguments {
    #[command(subcommand)]
    what: What,
}

/// What is done.
#[derive(Debug, Subcommand)]
enum What {
    /// List the sites, with number, date and author of the newest revision
    List {
        /// The folder, or a backup
        #[arg(default_value = ".")]
        store: PathBuf,
    },
    /// Read all of it and say whether it is undamaged
    Check {
        /// The folder, or a backup
        #[arg(default_value = ".")]
        store: PathBuf,
    },
    /// Copy all of it into one new file
    Backup {
        /// The folder
        folder: PathBuf,
        /// The file to make
        file: PathBuf,
    },
    /// Bring a backup back into a folder, and its site files with it
    ///
    /// A site file that somebody has changed since is not overwritten: it is kept in the store, and the command says so.
    Restore {
        /// The backup
        file: PathBuf,
        /// The folder
        folder: PathBuf,
        /// Replace the store of the folder; that one is backed up beside it first
        #[arg(long)]
        replace: bool,
    },
}

/// Runs the command.
///
/// # Errors
/// If there is no store, it is damaged or of a newer program, or a file cannot be written.
pub fn run(arguments: &StoreArguments, output: &mut dyn Write) -> Result<ExitCode> {
    match &arguments.what {
        What::List { store } => list(&to_read(store)?.1, output)?,
        What::Check { store } => {
            let (path, store) = to_read(store)?;
            let (revisions, answers) = check(&path, &store)?;
            writeln!(
                output,
                "{} is undamaged: {revisions} revisions, {answers} answers",
                shown::path(&path)
            )?;
        }
        What::Backup { folder, file } => {
            let (path, store) = to_read(folder)?;
            drop(store);
            backup(&path, file)?;
            writeln!(output, "wrote {}", shown::path(file))?;
        }
        What::Restore { file, folder, replace } => restore(file, folder, *replace, output)?,
    }
    Ok(ExitCode::SUCCESS)
}

/// The file of a store, named by its folder or itself.
fn store_path(store: &Path) -> PathBuf {
    if store.is_dir() { store.join(STORE_NAME) } else { store.to_path_buf() }
}

fn to_read(store: &Path) -> Result<(PathBuf, Store)> {
    let path = store_path(store);
    let store = Store::to_read(Sqlite::open_to_read(&path)?)?;
    Ok((path, store))
}

fn list(store: &Store, output: &mut dyn Write) -> Result<()> {
    let sites = store.sites()?;
    if sites.is_empty() {
        writeln!(output, "it holds no site yet")?;
    }
    for site in sites {
        let Signed { at_ms, by, .. } = &site.head.signed;
        let by = if by.is_empty() { String::new() } else { format!(" by {}", shown::name(by)) };
        writeln!(
            output,
            "{} ({}): revision {}, {}{by}",
            shown::name(&site.name),
            shown::name(&site.file),
            site.head.number.0,
            date::minute(*at_ms)
        )?;
    }
    Ok(())
}

/// Reads every text of every revision and every answer; how many there are.
fn check(path: &Path, store: &Store) -> Result<(usize, usize)> {
    const AT_ONCE: usize = 500;
    Sqlite::open_to_read(path)?.check_whole()?;
    let mut revisions = 0;
    for site in store.sites()? {
        let mut below = None;
        loop {
            let history = store.history(site.id, below, AT_ONCE)?;
            for revision in &history {
                let state = store.state(site.id, revision.number)?;
                if state.texts.hash() != revision.hash {
                    let (revision, site) = (&revision.number.0.to_string(), &*shown::name(&site.name));
                    return Err(StoreRefusal::Damaged { revision, site }.into());
                }
            }
            revisions += history.len();
            below = history.last().map(|revision| revision.number);
            if history.len() < AT_ONCE {
                break;
            }
        }
    }
    let (mut answers, mut below) = (0, None);
    loop {
        let found = store.find_answers("", below, AT_ONCE)?;
        answers += found.len();
        below = found.last().map(|(number, _)| *number);
        if found.len() < AT_ONCE {
            return Ok((revisions, answers));
        }
    }
}

fn backup(path: &Path, file: &Path) -> Result<()> {
    let store = Sqlite::open_to_read(path)?;
    create_by(file, |aside| Ok(store.copy_to(aside)?))
}

fn restore(file: &Path, folder: &Path, replace: bool, output: &mut dyn Write) -> Result<()> {
    let (path, kept) = to_read(file).refused(|| {
        StoreRefusal::NoBackup { file: &shown::path(file), version: &SCHEMA_VERSION.to_string() }.both()
    })?;
    check(&path, &kept)?;
    crate::files::make_folder(folder)?;
    let _lock = FolderLock::take(folder)?;
    let place = folder.join(STORE_NAME);
    if place.exists() {
        if !replace {
            return Err(StoreRefusal::HasStore { folder: &shown::path(folder) }.into());
        }
        let before = (1..).map(|number| folder.join(format!("latchline-before-restore-{number}.db")));
        let before = before.into_iter().find(|path| !path.exists()).refused(|| StoreRefusal::NoNameFree)?;
        backup(&place, &before).refused(|| StoreRefusal::NotBackedUp)?;
        writeln!(output, "the earlier store was saved as {}", shown::path(&before))?;
    }
    let database = Sqlite::open(&place)?;
    database.become_as(&Sqlite::open_to_read(&path)?)?;
    let store = Store::new(database)?;
    writeln!(output, "restored {}", shown::path(&place))?;
    let files = LiveFiles::new(folder);
    let signed = Signed {
        at_ms: date::now_ms(),
        by: String::from("another program"),
        engine: String::from(env!("CARGO_PKG_VERSION")),
        ..Signed::default()
    };
    for site in store.sites()? {
        let said = match store.settle(site.id, &files, &signed)? {
            Settled::Current { written, .. } if written.is_empty() => {
                String::from("already the same as in the store")
            }
            Settled::Current { .. } => String::from("written"),
            Settled::TakenIn { revision, .. } => {
                format!("was changed by another program; that is revision {} now", revision.number.0)
            }
            Settled::Conflict { aside, .. } => format!(
                "differs from the store. The file is left alone and saved as revision {}; choose between them on the office page",
                aside.0
            ),
            Settled::Unusable { why, .. } => format!("is left as it is: {why}"),
        };
        writeln!(output, "{}: {said}", shown::path(&folder.join(&site.file)))?;
    }
    Ok(())
}
