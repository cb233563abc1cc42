// What stands behind the script: the browser has not read it yet when the page begins.

/** The block of a class with this index, as soon as the browser has read it; nothing when the page ends without it. */
export async function readBlock(name: string, index: number): Promise<HTMLElement | undefined> {
  const blocks = document.getElementsByClassName(name) as HTMLCollectionOf<HTMLElement>;
  // What follows a block tells that all of it is there.
  while (document.readyState === "loading" && !blocks[index]?.nextSibling) await readOn();
  return blocks[index];
}

/** Waits until the browser has read on. */
function readOn(): Promise<void> {
  return new Promise((resolve) => {
    const done = (): void => {
      observer.disconnect();
      document.removeEventListener("readystatechange", done);
      resolve();
    };
    const observer = new MutationObserver(done);
    observer.observe(document.body, { childList: true });
    document.addEventListener("readystatechange", done);
  });
}
