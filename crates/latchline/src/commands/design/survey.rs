//! Surveys as `design` reads them: workbook or folder, with their catalogues.

use crate::files::{self, read_bytes};
use crate::load::catalogue_beside;
use crate::refusal::{Refused, Result};
use latchline_finding::{FileId, Finding, Severity, SourceFile, Sources, shown};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::table::{Sheet, from_csv};
use latchline_survey::workbook::from_xlsx;
use latchline_survey::{Problem, ProblemKind, Survey, unknown_parts};
use latchline_words::refusals::{FileRefusal, InsteadOf};
use std::path::{Path, PathBuf};

/// A survey with the catalogues that it is designed with.
pub(super) struct LoadedSurvey {
    pub sources: Sources,
    pub catalogues: LoadedCatalogues,
    pub survey: Survey,
    /// The files that it was read from.
    pub files: Vec<PathBuf>,
}

/// The folder of a survey, from which it names its catalogues.
pub(super) fn folder_of(survey: &Path) -> &Path {
    if survey.is_dir() { survey } else { survey.parent().unwrap_or(Path::new("")) }
}

/// The way from a folder to a file, as a site file names it; `None` if one of them is not there.
pub(super) fn seen_from(folder: &Path, file: &Path) -> Option<String> {
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let (folder, file) = (folder.canonicalize().ok()?, file.canonicalize().ok()?);
    let shared = folder.components().zip(file.components()).take_while(|(a, b)| a == b).count();
    let up = folder.components().skip(shared).map(|_| String::from(".."));
    let down = file.components().skip(shared).map(|part| part.as_os_str().to_string_lossy().into_owned());
    Some(up.chain(down).collect::<Vec<_>>().join("/"))
}

/// What reading a survey gives.
pub(super) struct Read {
    pub sources: Sources,
    /// What is wrong or doubtful in the survey and its catalogues.
    pub findings: Vec<Finding>,
    /// The survey with its catalogues; `None` if one of them cannot be used.
    pub survey: Option<(Survey, LoadedCatalogues)>,
    /// The files that were read.
    pub files: Vec<PathBuf>,
}

/// Reads a survey with its catalogues.
pub(super) fn load(path: &Path) -> Result<Read> {
    let mut sources = Sources::new();
    let file = sources.add(path.display().to_string(), "");
    let mut problems = Vec::new();
    let mut files = Vec::new();
    let sheets = sheets(path, file, &mut files, &mut problems)?;
    let read = latchline_survey::read(&sheets, problems);
    let mut findings: Vec<Finding> = read.problems.iter().map(Problem::finding).collect();
    let Some(draft) = read.draft else { return Ok(Read { sources, findings, survey: None, files }) };
    let (name, text) = builtin_catalogue();
    let mut catalogues = vec![sources.add(name, text)];
    let mut are_all_read = true;
    for named in &draft.settings.catalogues {
        match catalogue_beside(folder_of(path), &named.value) {
            Ok(SourceFile { name, text }) => {
                catalogues.push(sources.add(name, text));
                files.push(folder_of(path).join(&named.value));
            }
            Err(why) => {
                are_all_read = false;
                let kind = ProblemKind::CatalogueNotRead { path: named.value.clone(), why: Box::new(why) };
                findings.push(Problem::new(named.origin.clone(), kind).finding());
            }
        }
    }
    let catalogues = LoadedCatalogues::with_prices(&sources, &catalogues, draft.prices.clone());
    let of_catalogues = catalogues.checked();
    let is_usable = are_all_read && of_catalogues.iter().all(|finding| finding.severity < Severity::Error);
    findings.extend(of_catalogues);
    // Only catalogues that could be read say which parts there are not.
    let unknown = if is_usable { unknown_parts(&draft, catalogues.catalogue()) } else { Vec::new() };
    let survey = read.survey.filter(|_| is_usable && unknown.iter().all(Problem::is_harmless));
    findings.extend(unknown.iter().map(Problem::finding));
    Ok(Read { sources, findings, survey: survey.map(|survey| (survey, catalogues)), files })
}

fn sheets(
    path: &Path,
    file: FileId,
    files: &mut Vec<PathBuf>,
    problems: &mut Vec<Problem>,
) -> Result<Vec<Sheet>> {
    let name = shown::path(path);
    let mut read = |path: &Path| {
        files.push(path.to_path_buf());
        read_bytes(path, &mut std::io::empty())
    };
    let is_csv = |path: &Path| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    let mut sheet_of = |path: &Path, problems: &mut Vec<Problem>| -> Result<Option<Sheet>> {
        let stem = path.file_stem().map_or(String::new(), |stem| stem.to_string_lossy().into_owned());
        Ok(from_csv(file, &stem, &read(path)?, problems))
    };
    files::refuse_pack_folder(path, &InsteadOf::GiveSurvey)?;
    if path.is_dir() {
        let mut files: Vec<PathBuf> = std::fs::read_dir(path)
            .refused(|| FileRefusal::CannotRead { file: &name })?
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|path| is_csv(path))
            .collect();
        files.sort();
        if files.is_empty() {
            return Err(FileRefusal::NoSurveyInFolder { folder: &name }.into());
        }
        let mut sheets = Vec::new();
        for file in files {
            sheets.extend(sheet_of(&file, problems)?);
        }
        return Ok(sheets);
    }
    if is_csv(path) {
        return Ok(sheet_of(path, problems)?.into_iter().collect());
    }
    let bytes = read(path)?;
    files::refuse_for_survey(path, &bytes)?;
    Ok(from_xlsx(file, &bytes, problems))
}
