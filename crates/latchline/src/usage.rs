//! What the reader of the arguments has to say: help, version, mistakes.

use crate::Arguments;
use crate::commands::decimal::Decimal;
use crate::failure::UNUSABLE;
use crate::output;
use crate::refusal::{Refusal, Result};
use crate::typed::{self, language_of};
use clap::CommandFactory;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use latchline_finding::{Both, shown};
use latchline_words::refusals::{ArgumentRefusal, SystemRefusal, UsageWord};
use std::any::TypeId;
use std::io::Write;
use std::process::ExitCode;

/// Prints help or version as a result, or a mistake on standard error.
///
/// # Errors
/// If help or version cannot be written.
pub fn tell(error: &clap::Error, output: &mut dyn Write) -> Result<ExitCode> {
    if error.use_stderr() {
        let typed = typed::arguments();
        let plain = in_words(error, &typed).unwrap_or_else(|| error.render().to_string());
        let plain = typed::shortened(&plain, &typed);
        // Nothing is left to tell it to if standard error is closed.
        let _ = std::io::stderr().write_all(shown::whole(&plain, &['\n']).as_bytes());
        return Ok(ExitCode::from(UNUSABLE));
    }
    output::put(&error.render().to_string(), output)?;
    Ok(ExitCode::SUCCESS)
}

/// The options of the command that was typed that take a figure.
fn of_figures(typed: &[String]) -> Vec<String> {
    let mut arguments = Arguments::command();
    arguments.build();
    let mut command = &arguments;
    for word in typed {
        command = command.find_subcommand(word).unwrap_or(command);
    }
    let kinds = [TypeId::of::<u32>(), TypeId::of::<usize>(), TypeId::of::<Decimal>()];
    let is_figure =
        |option: &&clap::Arg| kinds.iter().any(|kind| option.get_value_parser().type_id() == *kind);
    let options = command.get_opts().filter(is_figure);
    options.filter_map(|option| option.get_long()).map(|long| format!("--{long}")).collect()
}

/// A mistake in the arguments as somebody would tell it who has the page of the command beside them; `None` where the reader's own
/// words do.
fn in_words(error: &clap::Error, typed: &[String]) -> Option<String> {
    let text = |kind: ContextKind| match error.get(kind)? {
        ContextValue::String(text) => Some(text.clone()),
        // What is suggested comes with the likeliest last.
        ContextValue::Strings(texts) if kind == ContextKind::SuggestedSubcommand => texts.last().cloned(),
        ContextValue::Strings(texts) => Some(texts.join(", ")),
        ContextValue::StyledStr(text) => Some(text.to_string()),
        _ => None,
    };
    let argument = text(ContextKind::InvalidArg);
    let language = language_of(typed);
    let said = match error.kind() {
        ErrorKind::UnknownArgument => {
            let argument = &*argument?;
            match (is_below_zero(argument), argument.starts_with('-')) {
                (true, _) => below_zero(argument, typed),
                (false, true) => {
                    let near = text(ContextKind::SuggestedArg);
                    ArgumentRefusal::NoOption { option: argument, near: near.as_deref() }.into()
                }
                (false, false) => {
                    let options = argument.parse::<f64>().map_or_else(|_| Vec::new(), |_| of_figures(typed));
                    let options = (!options.is_empty()).then(|| options.join(", "));
                    ArgumentRefusal::OneTooMany { argument, options: options.as_deref() }.into()
                }
            }
        }
        ErrorKind::ValueValidation => {
            let (option, value) = (&*argument?, &*text(ContextKind::InvalidValue)?);
            let reason = std::error::Error::source(error)?;
            let words = reason.to_string();
            match reason.downcast_ref::<Refusal>() {
                Some(refusal) => ArgumentRefusal::OfOption { option, reason: &refusal.both() }.into(),
                None if words.contains("is not in ") => {
                    let range = words.rsplit(' ').next().unwrap_or_default();
                    let (low, high) = range.split_once("..=").unwrap_or((range, ""));
                    ArgumentRefusal::NotInRange { option, low, high, value }.into()
                }
                None if is_of_number(&words) && words.contains("float") => {
                    ArgumentRefusal::NoNumber { option, value }.into()
                }
                None if is_of_number(&words) => ArgumentRefusal::NoWholeNumber { option, value }.into(),
                None => ArgumentRefusal::OfOption { option, reason: &Both::same(words) }.into(),
            }
        }
        ErrorKind::InvalidValue => {
            let (option, value) = (&*argument?, &*text(ContextKind::InvalidValue)?);
            let choices = text(ContextKind::ValidValue).filter(|all| !all.is_empty());
            let choices = choices.as_deref();
            match value.is_empty() {
                true if choices.is_none() && option.starts_with('-') => {
                    ArgumentRefusal::ValueMissing { option }.into()
                }
                true => ArgumentRefusal::Empty { option, choices }.into(),
                false => ArgumentRefusal::CannotBe { option, value, choices }.into(),
            }
        }
        ErrorKind::ArgumentConflict => {
            ArgumentRefusal::NotTogether { one: &argument?, other: &text(ContextKind::PriorArg)? }.into()
        }
        ErrorKind::MissingRequiredArgument => ArgumentRefusal::Missing { arguments: &argument? }.into(),
        ErrorKind::InvalidSubcommand => {
            let near = text(ContextKind::SuggestedSubcommand);
            let command = &text(ContextKind::InvalidSubcommand)?;
            ArgumentRefusal::NoCommand { command, near: near.as_deref() }.into()
        }
        _ => return None,
    };
    let usage = text(ContextKind::Usage).map_or(String::new(), |usage| format!("  {}\n", usage.trim()));
    let (lead, more) = (SystemRefusal::Error.say(language), UsageWord::More.say(language));
    Some(format!("{lead}: {}\n{usage}  {more}\n", Refusal::both(&said).of(language)))
}

/// What is said of a number below zero: there is no command that takes one there.
fn below_zero(number: &str, typed: &[String]) -> Refusal {
    let at = typed.iter().position(|argument| argument == number);
    let option = at.and_then(|at| typed.get(at.checked_sub(1)?)).filter(|before| before.starts_with("--"));
    match option {
        Some(option) => ArgumentRefusal::OptionBelowZero { option, number },
        None => ArgumentRefusal::BelowZero { number },
    }
    .into()
}

fn is_below_zero(argument: &str) -> bool {
    let Some(rest) = argument.strip_prefix('-') else { return false };
    rest.starts_with(|sign: char| sign.is_ascii_digit()) || rest.starts_with('.') || rest.starts_with(',')
}

/// Whether a number was wanted and the library's own words say so.
fn is_of_number(reason: &str) -> bool {
    ["invalid digit", "cannot parse integer", "number too", "invalid float"]
        .iter()
        .any(|part| reason.contains(part))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arguments::Arguments;
    use clap::Parser;

    fn said(typed: &[&str]) -> String {
        let error = Arguments::try_parse_from([&["latchline"], typed].concat()).expect_err("a mistake");
        let typed: Vec<String> = typed.iter().map(|text| String::from(*text)).collect();
        in_words(&error, &typed).unwrap_or_else(|| error.render().to_string())
    }

    #[test]
    fn mistakes_are_told_without_the_parsers_hints() {
        for (typed, expected) in [
            (&["ask", "battery", "-3"][..], "\"-3\" cannot stand here: a number here is not below zero"),
            (
                &["ask", "battery", "12", "--hours", "-3"],
                "--hours cannot be -3: a number here is not below zero",
            ),
            (&["reach", "--spacing", "-3"], "--spacing cannot be -3"),
            (&["headroom", "site.toml", "--most"], "there is no option --most here"),
            (&["check", "site.toml", "--suply", "PS"], "did you mean --supply?"),
            (
                &["check", "my", "site.toml"],
                "\"site.toml\" is one too many: a figure stands behind its option, what has a space in it in quotes",
            ),
            (&["ask", "battery", "24", "8"], "a figure stands behind its option (--hours), what"),
            (&["chek", "site.toml"], "there is no command \"chek\"; did you mean check?"),
            (&["ask", "battery", "abc"], "<STATIONS> is to be a whole number; \"abc\" is none"),
            (
                &["headroom", "site.toml", "--more", "100"],
                "--more <COUNT> is to be a whole number from 1 to 64; \"100\" is none",
            ),
            (&["check"], "what is missing: <SITE>"),
            (&["check", ""], "<SITE> is empty"),
            (
                &["check", "site.toml", "--door"],
                "--door <NAME>: the value is missing; write it behind the option",
            ),
            (&["check", "site.toml", "--door", ""], "--door <NAME>: the value is missing"),
            (&["check", "site.toml", "--supply="], "--supply <NAME>: the value is missing"),
            (&["fix", "site.toml", "--job"], "--job <JOB>: the value is missing"),
            (&["check", "a", "--format", "pdf"], "cannot be \"pdf\"; there is text, short, json, sarif"),
            (&["fix", "a", "--job", "J1", "--finding", "F1"], "cannot stand together"),
        ] {
            let text = said(typed);
            assert!(text.contains(expected) && !text.contains("tip:"), "{typed:?}: {text}");
        }
    }
}
