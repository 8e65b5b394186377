//! `latchline serve`: the office page.

use super::locale::LanguageArguments;
use super::store::STORE_NAME;
use crate::date::now_ms;
use crate::files::{FolderLock, LiveFiles, PassingFolder, read_text};
use crate::refusal::{Refusal, Refused, Result};
use clap::Args;
use latchline_finding::{Sources, shown};
use latchline_server::{Folder, Initial, Office, Options};
use latchline_site::ParsedSite;
use latchline_store::{Sqlite, Store};
use latchline_words::commands::ServeWords;
use latchline_words::refusals::{FileRefusal, StoreRefusal};
use std::hash::BuildHasher as _;
use std::io::Write;
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The port that is tried first.
const USUAL_PORT: u16 = 4840;

/// Open the office page: the building drawn, changed and judged in the browser
///
/// Answers on this machine only. Every site file (*.toml) of the folder is taken into its store, latchline.db, in which every edit is
/// kept as a revision, and is written to the file at once. A file that you or another program changes meanwhile is taken in as a revision of
/// its own; where both changed the same, both are kept and the page asks. One program works on a folder at a time. Without a folder it
/// shows the demo, and keeps nothing. Ends with Ctrl-C.
#[derive(Debug, Args)]
pub struct ServeArguments {
    /// The folder with site files
    folder: Option<PathBuf>,
    /// Where revisions are kept, instead of latchline.db in the folder
    #[arg(long, value_name = "FILE", requires = "folder")]
    store: Option<PathBuf>,
    /// The port; 0 takes any that is free [default: 4840, or any if that is taken]
    #[arg(long, value_name = "PORT")]
    port: Option<u16>,
    /// Do not open a browser
    #[arg(long)]
    no_browser: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command until it is told to stop.
///
/// # Errors
/// If a file cannot be read or the port not be taken.
pub fn run(arguments: &ServeArguments, output: &mut dyn Write) -> Result<ExitCode> {
    let language = arguments.language.language();
    let demo = match &arguments.folder {
        Some(_) => None,
        None => Some(PassingFolder::new("latchline-demo", now_ms())?),
    };
    // Held until the program ends, however it ends.
    let _lock = arguments.folder.as_deref().map(FolderLock::take).transpose()?;
    let place = match (&arguments.folder, &demo) {
        (Some(folder), _) => arguments.store.clone().unwrap_or_else(|| folder.join(STORE_NAME)),
        (None, Some(demo)) => demo.path().join(STORE_NAME),
        (None, None) => return Err(StoreRefusal::NoFolder.into()),
    };
    let sites = match &arguments.folder {
        Some(folder) => of_folder(folder)?,
        None => vec![Initial {
            name: String::from("Quillmere Yard"),
            files: vec![(String::from("site.toml"), String::from(super::new::DEMO_SITE))],
        }],
    };
    let listener = listen(arguments.port)?;
    let address = format!("http://{}/", listener.local_addr()?);
    let options = Options {
        token: secret(),
        clock: now_ms,
        engine: env!("CARGO_PKG_VERSION"),
        demo: super::new::DEMO_SITE,
        keeps_record: demo.is_none(),
    };
    let store = Store::new(Sqlite::open(&place)?)?;
    let folder = arguments.folder.as_deref().map(|folder| Box::new(LiveFiles::new(folder)) as Folder);
    let office = Office::new(options, store, &sites, folder).map_err(Refusal::new)?;
    writeln!(output, "{}", ServeWords::At { address: &address }.say(language))?;
    let kept = match &demo {
        Some(_) => ServeWords::Demo.say(language),
        None => ServeWords::Kept { store: &shown::path(&place) }.say(language),
    };
    writeln!(output, "{kept}")?;
    output.flush()?;
    if !arguments.no_browser && !open(&address) {
        writeln!(output, "{}", ServeWords::NoBrowser.say(language))?;
        output.flush()?;
    }
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(16)
        .enable_all()
        .build()
        .refused(|| StoreRefusal::CannotStart)?;
    let stop = async {
        let _: std::io::Result<()> = tokio::signal::ctrl_c().await;
    };
    runtime
        .block_on(latchline_server::serve(listener, office, stop))
        .refused(|| StoreRefusal::CannotAnswer)?;
    // Work that is still under way is of a site that nobody sees any more.
    runtime.shutdown_background();
    writeln!(output, "{}", ServeWords::Ended.say(language))?;
    Ok(ExitCode::SUCCESS)
}

fn listen(port: Option<u16>) -> Result<TcpListener> {
    let at = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    match port {
        Some(port) => at(port).refused(|| StoreRefusal::PortTaken { port: &port.to_string() }.both()),
        None => at(USUAL_PORT).or_else(|_| at(0)).refused(|| StoreRefusal::NoPort),
    }
}

/// A secret of this run. The keys of the standard library's hasher are random numbers of the operating system, and its hash (SipHash with a
/// key of 128 bits) tells nothing of them.
fn secret() -> String {
    let part = |number: u64| std::hash::RandomState::new().hash_one((number, now_ms()));
    (0..3).map(|number| format!("{:016x}", part(number))).collect()
}

/// Every site file of a folder with its catalogues. A file of another kind is left out.
fn of_folder(folder: &Path) -> Result<Vec<Initial>> {
    let name = shown::path(folder);
    let entries = std::fs::read_dir(folder).refused(|| FileRefusal::CannotReadFolder { folder: &name })?;
    let mut paths: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.is_file() && path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    paths.sort();
    let mut sites = Vec::new();
    for path in paths {
        let text = read_text(&path, &mut std::io::empty())?;
        if !text.lines().any(|line| line.trim_start().starts_with("[site]")) {
            continue;
        }
        sites.push(site(folder, &path, text)?);
    }
    Ok(sites)
}

fn site(folder: &Path, path: &Path, text: String) -> Result<Initial> {
    let mut sources = Sources::new();
    let name = path.file_name().map_or(String::new(), |name| name.to_string_lossy().into_owned());
    let file = sources.add(name.clone(), text.clone());
    let source = sources.file(file).clone();
    let parsed = ParsedSite::new(file, &source);
    let mut all = vec![(name.clone(), text)];
    for named in parsed.catalogue_paths() {
        // One that cannot be read is told on the page, where the site names it.
        if let Ok(text) = read_text(&folder.join(&named.value), &mut std::io::empty()) {
            all.push((named.value.clone(), text));
        }
    }
    let stem = path.file_stem().map_or(String::new(), |stem| stem.to_string_lossy().into_owned());
    if stem.is_empty() {
        return Err(FileRefusal::HasNoName { file: &shown::path(path) }.into());
    }
    Ok(Initial { name: stem, files: all })
}

/// Opens a browser; whether one could be started.
fn open(address: &str) -> bool {
    let (program, arguments): (&str, &[&str]) = if cfg!(target_os = "windows") {
        ("cmd", &["/C", "start", ""])
    } else if cfg!(target_os = "macos") {
        ("open", &[])
    } else {
        ("xdg-open", &[])
    };
    let quiet = std::process::Stdio::null;
    let started = std::process::Command::new(program)
        .args(arguments)
        .arg(address)
        .stdin(quiet())
        .stdout(quiet())
        .stderr(quiet())
        .spawn();
    started.is_ok()
}
