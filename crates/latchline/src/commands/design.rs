//! `latchline design`: from a survey to the cheapest site file that passes.

use super::locale::LanguageArguments;
use crate::failure::UNUSABLE;
use crate::files::{self, MayReplace, read_bytes, read_text, refuse_inputs, refuse_standing};
use crate::output;
use crate::surroundings::{Colour, Surroundings};
use anyhow::{Context, Result, bail};
use clap::{Args, ValueEnum};
use latchline_design::{Design, Effort, Obstacle, Texts, design};
use latchline_finding::{FileId, Finding, Language, Money, Severity, Sources, shown};
use latchline_report::{Report, sarif};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::table::{Sheet, from_csv};
use latchline_survey::workbook::from_xlsx;
use latchline_survey::{Problem, Survey};
use latchline_words::design::{ComparisonHead, DesignVerdict, DesignWords};
use latchline_words::figures;
use serde::Serialize;
use std::fmt::Write as _;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Walking orders that are tried when no time is given.
const USUAL_ORDERS: usize = 3;
/// Longest time to try in: some eleven days.
const MOST_SECONDS: f64 = 1e6;

/// Design a site from a survey: the cheapest that passes, with a lower bound
///
/// Reads a survey (a workbook made by latchline new --survey, or a folder of CSV files), decides supplies,
/// distributors, runs and cables, and writes a site file that passes check, or says which limit is to blame. Prints
/// the cost, a lower bound for the declared design space, and that space. With --from, an installed site is changed
/// instead: further dwellings, other lengths and withdrawn parts, at least cost, with what is installed kept. Exit
/// status: 0 a design was written, 1 there is none, 2 the survey cannot be used.
#[derive(Debug, Args)]
pub struct DesignArguments {
    /// The survey: an XLSX workbook, a CSV file of dwellings, or a folder of CSV files
    survey: PathBuf,
    /// The site file to write
    #[arg(short, long, value_name = "SITE")]
    pub(super) output: Option<PathBuf>,
    /// Change this installed site as the survey asks, instead of designing anew: what is installed stays
    #[arg(long, value_name = "SITE", conflicts_with_all = ["family", "compare", "time"])]
    from: Option<PathBuf>,
    /// Family of parts; without it the survey's, or the cheapest that passes
    #[arg(long)]
    family: Option<String>,
    /// Keep trying further walking orders for this many seconds
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    time: Option<f64>,
    /// Seed of the walking orders beyond the natural ones
    #[arg(long, default_value_t = 0)]
    seed: u64,
    /// Design with every family and set them side by side
    #[arg(long, conflicts_with = "output")]
    compare: bool,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    /// Replace the site file if it exists
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For a person
    Text,
    /// For programs
    Json,
    /// SARIF 2.1.0: only what is wrong with the survey and its catalogues
    Sarif,
}

/// A time to try in; not a number compares with nothing, so the range refuses it too.
fn seconds(text: &str) -> Result<f64, String> {
    let time = text.trim().parse::<f64>().ok();
    time.filter(|time| (0.001..=MOST_SECONDS).contains(time)).ok_or_else(|| {
        format!("write a number of seconds from 0.001 to {MOST_SECONDS}, with a decimal point")
    })
}

/// A survey with the catalogues that it is designed with.
pub struct LoadedSurvey {
    sources: Sources,
    pub(super) catalogues: LoadedCatalogues,
    pub(super) survey: Survey,
    /// The files that it was read from.
    files: Vec<PathBuf>,
}

impl DesignArguments {
    /// Language of what is said.
    pub(super) fn language(&self) -> Language {
        self.language.language()
    }

    /// What may stand where the site file goes.
    pub(super) fn may_replace(&self) -> MayReplace<'static> {
        if self.force { MayReplace::Anything } else { MayReplace::Nothing }
    }
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the result not be written.
pub fn run(
    arguments: &DesignArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let language = arguments.language();
    let look = surroundings.look(Colour::Never, false).in_language(language);
    if let Some(file) = &arguments.output {
        refuse_standing(file, arguments.may_replace())?;
    }
    let Read { sources, findings, survey, files } = load(&arguments.survey)?;
    let name = arguments.survey.display().to_string();
    if arguments.format == Format::Sarif {
        let report = Report::new(&name, &sources, &findings, None, crate::codes::all());
        output::put(&sarif::render(&report, &super::check::working_folder())?, output)?;
        return Ok(ExitCode::from(if survey.is_some() { 0 } else { UNUSABLE }));
    }
    let Some((survey, catalogues)) = survey else {
        if arguments.format == Format::Json {
            let report = Report::new(&name, &sources, &findings, None, crate::codes::all());
            output::put(&latchline_report::json::render(&report)?, output)?;
        } else {
            super::tell(&name, &sources, &findings, &look);
        }
        return Ok(ExitCode::from(UNUSABLE));
    };
    if !findings.is_empty() {
        super::tell(&name, &sources, &findings, &look);
    }
    let mut loaded = LoadedSurvey { sources, catalogues, survey, files };
    if let Some(file) = &arguments.output {
        refuse_inputs(&loaded.files, file)?;
    }
    if let Some(installed) = &arguments.from {
        return super::design_change::run(arguments, installed, &loaded, output);
    }
    if let Some(file) = &arguments.output {
        let folder = file.parent().unwrap_or(Path::new(""));
        for named in &mut loaded.survey.settings.catalogues {
            *named = seen_from(folder, &folder_of(&arguments.survey).join(&*named)).unwrap_or(named.clone());
        }
    }
    let families = families(arguments, &loaded)?;
    let mut results: Vec<(String, Result<Design, Obstacle>)> = Vec::new();
    for family in families {
        let result = one(arguments, &loaded, &family);
        results.push((family, result));
    }
    if arguments.compare {
        let text = match arguments.format {
            Format::Text => side_by_side(&results, &loaded.catalogues.catalogue().currency, language),
            Format::Json | Format::Sarif => json(&results, None)?,
        };
        output::put(&text, output)?;
        return Ok(ExitCode::from(u8::from(results.iter().all(|(_, result)| result.is_err()))));
    }
    let best = results
        .iter()
        .filter_map(|(_, result)| result.as_ref().ok())
        .min_by(|a, b| a.cost.cmp(&b.cost).then(a.family.cmp(&b.family)));
    if let (Some(best), Some(file)) = (best, &arguments.output) {
        files::write(file, best.text.as_bytes(), arguments.may_replace())?;
    }
    let text = match (arguments.format, best) {
        (Format::Json | Format::Sarif, best) => json(&results, best)?,
        (Format::Text, Some(best)) if arguments.output.is_none() => best.text.clone(),
        (Format::Text, Some(best)) => {
            report(best, &loaded.catalogues.catalogue().currency, arguments.output.as_deref(), language)
        }
        (Format::Text, None) => no_design(&results, language),
    };
    output::put(&text, output)?;
    Ok(ExitCode::from(u8::from(best.is_none())))
}

fn one(arguments: &DesignArguments, loaded: &LoadedSurvey, family: &str) -> Result<Design, Obstacle> {
    let language = arguments.language();
    let started = Instant::now();
    let limit = arguments.time;
    let orders = if limit.is_some() { 100_000 } else { USUAL_ORDERS };
    let effort = Effort { orders, seed: arguments.seed };
    let texts = Texts { sources: &loaded.sources, catalogues: &loaded.catalogues };
    let mut go_on = |tried: usize, cost: Option<Money>, bound: Money| {
        let Some(limit) = limit else { return true };
        if let Some(cost) = cost {
            let words = DesignWords::Orders {
                family: &shown::name(family),
                orders: tried,
                cost: &amount(cost, language),
                bound: &amount(bound, language),
            };
            let line = format!("\r{} ", words.say(language));
            let _ = std::io::stderr().write_all(line.as_bytes());
        }
        started.elapsed() < Duration::from_secs_f64(limit)
    };
    let result = design(&loaded.survey, family, texts, effort, &mut go_on);
    if limit.is_some() {
        let _ = std::io::stderr().write_all(b"\n");
    }
    result
}

fn families(arguments: &DesignArguments, loaded: &LoadedSurvey) -> Result<Vec<String>> {
    let known: Vec<String> = loaded.catalogues.catalogue().families.keys().cloned().collect();
    if arguments.compare {
        return Ok(known);
    }
    let settled = loaded.survey.settings.family.as_ref().map(|family| family.value.clone());
    match arguments.family.clone().or(settled) {
        None => Ok(known),
        Some(family) if known.contains(&family) => Ok(vec![family]),
        Some(family) => bail!("there is no family \"{family}\"; the catalogue has {}", known.join(", ")),
    }
}

/// The folder of a survey, from which it names its catalogues.
fn folder_of(survey: &Path) -> &Path {
    if survey.is_dir() { survey } else { survey.parent().unwrap_or(Path::new("")) }
}

/// The way from a folder to a file, as a site file names it; `None` if one of them is not there.
fn seen_from(folder: &Path, file: &Path) -> Option<String> {
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let (folder, file) = (folder.canonicalize().ok()?, file.canonicalize().ok()?);
    let shared = folder.components().zip(file.components()).take_while(|(a, b)| a == b).count();
    let up = folder.components().skip(shared).map(|_| String::from(".."));
    let down = file.components().skip(shared).map(|part| part.as_os_str().to_string_lossy().into_owned());
    Some(up.chain(down).collect::<Vec<_>>().join("/"))
}

/// What reading a survey gives.
struct Read {
    sources: Sources,
    /// What is wrong or doubtful in the survey and its catalogues.
    findings: Vec<Finding>,
    /// The survey with its catalogues; `None` if one of them cannot be used.
    survey: Option<(Survey, LoadedCatalogues)>,
    /// The files that were read.
    files: Vec<PathBuf>,
}

/// Reads a survey with its catalogues.
fn load(path: &Path) -> Result<Read> {
    let mut sources = Sources::new();
    let file = sources.add(path.display().to_string(), "");
    let mut problems = Vec::new();
    let mut files = Vec::new();
    let sheets = sheets(path, file, &mut files, &mut problems)?;
    let read = latchline_survey::read(&sheets, problems);
    let mut findings: Vec<Finding> = read.problems.iter().map(Problem::finding).collect();
    let Some(survey) = read.survey else { return Ok(Read { sources, findings, survey: None, files }) };
    let (name, text) = builtin_catalogue();
    let mut catalogues = vec![sources.add(name, text)];
    for named in &survey.settings.catalogues {
        let file = folder_of(path).join(named);
        let text = read_text(&file, &mut std::io::empty())
            .with_context(|| format!("the catalogue \"{named}\", named in the survey, cannot be used"))?;
        catalogues.push(sources.add(file.display().to_string(), text));
        files.push(file);
    }
    let catalogues = LoadedCatalogues::with_prices(&sources, &catalogues, survey.prices.clone());
    let of_catalogues = catalogues.checked();
    let is_usable = of_catalogues.iter().all(|finding| finding.severity < Severity::Error);
    findings.extend(of_catalogues);
    Ok(Read { sources, findings, survey: is_usable.then_some((survey, catalogues)), files })
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
    if path.is_dir() {
        let mut files: Vec<PathBuf> = std::fs::read_dir(path)
            .with_context(|| format!("cannot read \"{name}\""))?
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|path| is_csv(path))
            .collect();
        files.sort();
        if files.is_empty() {
            bail!(
                "the folder \"{name}\" has no CSV files; a survey is a workbook or a folder with dwellings.csv, places.csv, ..."
            );
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

fn verdict(design: &Design) -> &'static str {
    design.assessment.verdict.word()
}

/// The least margin of any station and its name.
fn tightest(design: &Design) -> Option<(String, f64)> {
    let devices = design.assessment.devices.iter();
    let worst = devices.min_by(|a, b| a.worst.margin_v().total_cmp(&b.worst.margin_v()))?;
    Some((worst.id.to_string(), worst.worst.margin_v()))
}

/// Money as the reader writes it.
pub(super) fn amount(amount: Money, language: Language) -> String {
    figures::decimals(amount.to_string(), language)
}

fn metres(design: &Design) -> f64 {
    let cable = latchline_site::bill::BillKind::Cable;
    design.bill.lines.iter().filter(|line| line.kind == cable).map(|line| line.quantity).sum()
}

fn report(design: &Design, currency: &str, file: Option<&Path>, language: Language) -> String {
    let say = |words: DesignWords<'_>| words.say(language);
    let fixed = |value, decimals| figures::decimals(figures::fixed(value, decimals), language);
    let money = |money| amount(money, language);
    let mut text = String::new();
    let site = &design.site;
    let file = file.map(shown::path);
    let file = file.as_deref();
    if let Some(file) = file {
        let verdict = &verdict_words(design);
        let _ = writeln!(text, "{}", say(DesignWords::Wrote { file, family: &design.family, verdict }));
    }
    let contents = DesignWords::Contents {
        supplies: &DesignWords::Supplies { count: site.supplies.len() }.both(),
        boxes: &DesignWords::Boxes { count: site.boxes.len() }.both(),
        runs: &DesignWords::Runs { count: site.runs.len() }.both(),
        cable: &fixed(metres(design), 1),
        stations: &DesignWords::Stations { count: site.stations.len() }.both(),
    };
    let _ = writeln!(text, "\n{}", say(contents));
    if let Some((device, margin_v)) = tightest(design) {
        let margin = &fixed((margin_v * 100.0).floor() / 100.0, 2);
        let _ = writeln!(text, "{}", say(DesignWords::Tightest { device: &device, margin }));
    }
    let cost = DesignWords::Cost {
        cost: &money(design.cost),
        currency,
        material: &money(design.material),
        hours: &fixed(design.minutes / 60.0, 1),
    };
    let bound = DesignWords::Bound {
        bound: &money(design.lower_bound),
        saved: &fixed((design.gap() * 1e4).ceil() / 100.0, 2),
    };
    let _ = writeln!(text, "\n{}\n{}", say(cost), say(bound));
    match design.bill.unpriced() {
        0 => {}
        1 => text.push_str(&(say(DesignWords::LineWithoutPrice) + "\n")),
        lines => {
            let _ = writeln!(text, "{}", say(DesignWords::LinesWithoutPrice { lines }));
        }
    }
    for binding in &design.binding {
        let price = &money(binding.price);
        let _ = writeln!(text, "{}", say(DesignWords::LimitCosts { limit: &binding.limit, price }));
    }
    let _ = writeln!(text, "\n{}", say(DesignWords::Space));
    for line in &design.space {
        let _ = writeln!(text, "- {}", line.of(language));
    }
    if let Some(file) = file {
        let _ = writeln!(text, "\n{}", say(DesignWords::Next { file }));
    }
    text
}

fn verdict_words(design: &Design) -> DesignVerdict {
    match verdict(design) {
        "holds" => DesignVerdict::Passes,
        "holds-on-assumed-data" => DesignVerdict::PassesAssumed,
        _ => DesignVerdict::PassesJudged,
    }
}

fn no_design(results: &[(String, Result<Design, Obstacle>)], language: Language) -> String {
    let mut text = DesignWords::NoDesign.say(language) + "\n";
    for (family, result) in results {
        if let Err(obstacle) = result {
            let words = DesignWords::Obstacle { family, obstacle: &obstacle.say(language) };
            let _ = writeln!(text, "  {}", words.say(language));
        }
    }
    text
}

fn side_by_side(
    results: &[(String, Result<Design, Obstacle>)],
    currency: &str,
    language: Language,
) -> String {
    let mut text = String::new();
    let head = |head: ComparisonHead| head.say(language);
    let fixed = |value, decimals| figures::decimals(figures::fixed(value, decimals), language);
    let _ = writeln!(
        text,
        "{:<14} {:>12} {:>12} {:>8} {:>9} {:>6} {:>9} {:>9}  {}",
        head(ComparisonHead::Family),
        DesignWords::CostIn { currency }.say(language),
        head(ComparisonHead::AtLeast),
        head(ComparisonHead::Boxes),
        head(ComparisonHead::Supplies),
        head(ComparisonHead::Runs),
        head(ComparisonHead::CableMetres),
        head(ComparisonHead::VoltsInHand),
        head(ComparisonHead::Verdict)
    );
    for (family, result) in results {
        let Ok(design) = result else { continue };
        let margin_v = tightest(design).map_or(0.0, |(_, margin)| (margin * 100.0).floor() / 100.0);
        let _ = writeln!(
            text,
            "{family:<14} {:>12} {:>12} {:>8} {:>9} {:>6} {:>9} {:>9}  {}",
            amount(design.cost, language),
            amount(design.lower_bound, language),
            design.site.boxes.len(),
            design.site.supplies.len(),
            design.site.runs.len(),
            fixed(metres(design), 1),
            fixed(margin_v, 2),
            match language {
                Language::English => String::from(verdict(design)),
                Language::German => String::from(verdict_words(design).say(language)),
            }
        );
    }
    for (family, result) in results {
        if let Err(obstacle) = result {
            let words = DesignWords::CannotFamily { obstacle: &obstacle.say(language) };
            let _ = writeln!(text, "{family:<14} {}", words.say(language));
        }
    }
    text
}

/// The result for programs.
#[derive(Serialize)]
struct Json<'a> {
    chosen: Option<&'a str>,
    families: Vec<FamilyJson<'a>>,
}

#[derive(Serialize)]
struct FamilyJson<'a> {
    family: &'a str,
    obstacle: Option<String>,
    design: Option<DesignJson<'a>>,
}

#[derive(Serialize)]
struct DesignJson<'a> {
    verdict: &'a str,
    cost: f64,
    material: f64,
    labour_minutes: f64,
    lower_bound: f64,
    gap: f64,
    cheapest_box: f64,
    orders_tried: usize,
    plans_assessed: usize,
    supplies: usize,
    boxes: usize,
    runs: usize,
    new_cable_m: f64,
    tightest: Option<(String, f64)>,
    limits: Vec<LimitJson<'a>>,
    space: Vec<&'a str>,
}

#[derive(Serialize)]
struct LimitJson<'a> {
    limit: &'a str,
    price: f64,
}

fn json(results: &[(String, Result<Design, Obstacle>)], best: Option<&Design>) -> Result<String> {
    let families = results.iter().map(|(family, result)| FamilyJson {
        family,
        obstacle: result.as_ref().err().map(ToString::to_string),
        design: result.as_ref().ok().map(|design| DesignJson {
            verdict: verdict(design),
            cost: design.cost.as_units(),
            material: design.material.as_units(),
            labour_minutes: design.minutes,
            lower_bound: design.lower_bound.as_units(),
            gap: design.gap(),
            cheapest_box: design.cheapest_box.as_units(),
            orders_tried: design.orders,
            plans_assessed: design.assessed,
            supplies: design.site.supplies.len(),
            boxes: design.site.boxes.len(),
            runs: design.site.runs.len(),
            new_cable_m: metres(design),
            tightest: tightest(design),
            limits: design
                .binding
                .iter()
                .map(|binding| LimitJson {
                    limit: binding.limit.of(Language::English),
                    price: binding.price.as_units(),
                })
                .collect(),
            space: design.space.iter().map(|line| line.of(Language::English)).collect(),
        }),
    });
    let result = Json { chosen: best.map(|design| design.family.as_str()), families: families.collect() };
    Ok(latchline_report::json::text(&result)?)
}
