//! The browsers and their drivers on this machine.

use std::env;
use std::path::PathBuf;

use overmantel_builder::command::find_program;
use overmantel_builder::{Failure, Outcome, debian};

/// Flags that let it run without a display, as root, in a container, and keep it from calling home.
pub(crate) const FLAGS: [&str; 8] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

const BROWSERS: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/// Where Firefox is that no folder of `PATH` names.
const FIREFOX_ELSEWHERE: [&str; 2] =
    ["/Applications/Firefox.app/Contents/MacOS/firefox", r"C:\Program Files\Mozilla Firefox\firefox.exe"];

/// Where browsers are that no folder of `PATH` names.
const ELSEWHERE: [&str; 3] = [
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
];

/// Finds Chromium or Chrome; installs Debian's where it may.
///
/// # Errors
/// When there is none; the sentence says how to get one.
pub(crate) fn find() -> Outcome<PathBuf> {
    find_or_install("CHROMIUM", "Chromium", &CHROMIUM, || first(&BROWSERS, &ELSEWHERE))
}

/// Finds the driver through which the tests in wasm speak to the browser; installs Debian's where it may.
///
/// # Errors
/// When there is none; the sentence says how to get one.
pub(crate) fn find_driver() -> Outcome<PathBuf> {
    find_or_install("CHROMEDRIVER", "chromedriver", &CHROMIUM, || find_program("chromedriver"))
}

/// Finds Firefox; installs Debian's where it may.
///
/// # Errors
/// When there is none; the sentence says how to get one.
pub(crate) fn find_firefox() -> Outcome<PathBuf> {
    find_or_install("FIREFOX", "Firefox", &["firefox-esr"], || {
        first(&["firefox-esr", "firefox"], &FIREFOX_ELSEWHERE)
    })
}

/// Finds WebKit's driver, and the virtual display that its browser needs where there is no other; installs Debian's where it may.
///
/// # Errors
/// When there is none; the sentence says how to get one.
pub(crate) fn find_webkit() -> Outcome<[PathBuf; 2]> {
    let packages = ["webkit2gtk-driver", "xvfb"];
    let find = |variable, name| find_or_install(variable, name, &packages, || find_program(name));
    Ok([find("WEBKIT_DRIVER", "WebKitWebDriver")?, find("XVFB", "Xvfb")?])
}

const CHROMIUM: [&str; 3] = ["chromium", "chromium-driver", "fonts-liberation"];

fn first(names: &[&str], elsewhere: &[&str]) -> Option<PathBuf> {
    let found = names.iter().find_map(|name| find_program(name));
    found.or_else(|| elsewhere.iter().map(PathBuf::from).find(|path| path.is_file()))
}

fn find_or_install(
    variable: &str,
    name: &str,
    packages: &[&str],
    find: impl Fn() -> Option<PathBuf>,
) -> Outcome<PathBuf> {
    find_or_install_to("test the page in a browser", variable, name, packages, find)
}

/// Finds a program by its variable or otherwise; installs Debian's packages where it may, for this purpose.
///
/// # Errors
/// When there is none; the sentence says how to get one.
pub(super) fn find_or_install_to(
    purpose: &str,
    variable: &str,
    name: &str,
    packages: &[&str],
    find: impl Fn() -> Option<PathBuf>,
) -> Outcome<PathBuf> {
    if let Some(path) = env::var_os(variable).map(PathBuf::from) {
        let missing = || Failure::new(format!("{variable} names {}, which does not exist.", path.display()));
        return path.is_file().then(|| path.clone()).ok_or_else(missing);
    }
    if let Some(path) = find() {
        return Ok(path);
    }
    if debian::is_here() {
        debian::install(packages, purpose)?;
    }
    find().ok_or_else(|| {
        Failure::new(format!(
            "{name} was not found; please install it, or name it in the variable {variable}."
        ))
    })
}
