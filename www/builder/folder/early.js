// Asks for the core before the page's script is here. (A preload is fetched a second time by WebKit, which has no use for it in a stream.)
globalThis.overmantelCore = fetch(document.currentScript.dataset.core);
globalThis.overmantelRest = fetch(document.currentScript.dataset.rest, { priority: "low" });
overmantelCore.catch(() => undefined);
overmantelRest.catch(() => undefined);
