//! `latchline store`: what is kept in a folder: listed, checked, copied, brought back.

use super::locale::LanguageArguments;
use crate::date;
use crate::files::{FolderLock, LiveFiles, create_by};
use crate::refusal::{Refused, Result};
use clap::{Args, Subcommand};
use latchline_finding::{Language, shown};
use latchline_store::{SCHEMA_VERSION, Settled, Signed, Sqlite, Store};
use latchline_words::commands::{StoreWords, WrittenWords};
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
        #[command(flatten)]
        language: LanguageArguments,
    },
    /// Read all of it and say whether it is undamaged
    Check {
        /// The folder, or a backup
        #[arg(default_value = ".")]
        store: PathBuf,
        #[command(flatten)]
        language: LanguageArguments,
    },
    /// Copy all of it into one new file
    Backup {
        /// The folder
        folder: PathBuf,
        /// The file to make
        file: PathBuf,
        #[command(flatten)]
        language: LanguageArguments,
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
        #[command(flatten)]
        language: LanguageArguments,
    },
}

impl What {
    fn language(&self) -> Language {
        match self {
            What::List { language, .. }
            | What::Check { language, .. }
            | What::Backup { language, .. }
            | What::Restore { language, .. } => language.language(),
        }
    }
}

/// Runs the command.
///
/// # Errors
/// If there is no store, it is damaged or of a newer program, or a file cannot be written.
pub fn run(arguments: &StoreArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let language = arguments.what.language();
    match &arguments.what {
        What::List { store, .. } => list(&to_read(store)?.1, language, output)?,
        What::Check { store, .. } => {
            let (path, store) = to_read(store)?;
            let (revisions, answers) = check(&path, &store)?;
            let said = StoreWords::Undamaged { store: &shown::path(&path), revisions, answers };
            writeln!(output, "{}", said.say(language))?;
        }
        What::Backup { folder, file, .. } => {
            let (path, store) = to_read(folder)?;
            drop(store);
            backup(&path, file)?;
            writeln!(output, "{}", WrittenWords::Wrote { file: &shown::path(file) }.say(language))?;
        }
        What::Restore { file, folder, replace, .. } => restore(file, folder, *replace, language, output)?,
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

fn list(store: &Store, language: Language, output: &mut dyn Write) -> Result<()> {
    let sites = store.sites()?;
    if sites.is_empty() {
        writeln!(output, "{}", StoreWords::NoSite.say(language))?;
    }
    for site in sites {
        let Signed { at_ms, by, .. } = &site.head.signed;
        let by = (!by.is_empty()).then(|| shown::name(by));
        let said = StoreWords::Site {
            name: &shown::name(&site.name),
            file: &shown::name(&site.file),
            revision: &site.head.number.0.to_string(),
            date: &date::minute(*at_ms).unwrap_or_else(|| StoreWords::NoDate.say(language)),
            by: by.as_deref(),
        };
        writeln!(output, "{}", said.say(language))?;
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

fn restore(
    file: &Path,
    folder: &Path,
    replace: bool,
    language: Language,
    output: &mut dyn Write,
) -> Result<()> {
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
        writeln!(output, "{}", StoreWords::Saved { file: &shown::path(&before) }.say(language))?;
    }
    let database = Sqlite::open(&place)?;
    database.become_as(&Sqlite::open_to_read(&path)?)?;
    let store = Store::new(database)?;
    writeln!(output, "{}", StoreWords::Restored { store: &shown::path(&place) }.say(language))?;
    let files = LiveFiles::new(folder);
    let signed = Signed {
        at_ms: date::now_ms(),
        by: String::from("another program"),
        engine: String::from(env!("CARGO_PKG_VERSION")),
        ..Signed::default()
    };
    for site in store.sites()? {
        let file = &*shown::path(&folder.join(&site.file));
        let said = match store.settle(site.id, &files, &signed)? {
            Settled::Current { written, .. } if written.is_empty() => StoreWords::Same { file }.say(language),
            Settled::Current { .. } => StoreWords::FileWritten { file }.say(language),
            Settled::TakenIn { revision, .. } => {
                StoreWords::TakenIn { file, revision: &revision.number.0.to_string() }.say(language)
            }
            Settled::Conflict { aside, .. } => {
                StoreWords::Differs { file, revision: &aside.0.to_string() }.say(language)
            }
            Settled::Unusable { why, .. } => StoreWords::LeftAsIs { file, why: &why }.say(language),
        };
        writeln!(output, "{said}")?;
    }
    Ok(())
}
