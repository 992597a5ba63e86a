/**
 * Microsoft's own client script, run in Node as in `tests/taskpane/office-client.ts`: it calls the functions, waits
 * for promises, and tells Excel the answers. Only Excel, which asks, is ours.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createContext, runInContext } from "node:vm";
import type { WaitingHost } from "../../functions/bind/late";
import { pageOf } from "../taskpane/office-client";

/** What the script writes of an error for Excel. */
export interface ToldError {
  basicValue: string;
  message: string;
}

export interface FunctionsClient {
  CustomFunctions: WaitingHost<object>;
  /**
   * Calls functions in one message, as Excel does, and gives what Excel is told of each. What is left out of a
   * formula is null: the script puts an argument of its own behind the last.
   */
  call(...calls: [id: string, ...args: unknown[]][]): Promise<unknown[]>;
}

export function functionsClient(): FunctionsClient {
  const path = createRequire(import.meta.url).resolve(
    "@microsoft/office-js/dist/excel-web-16.00.debug.js",
  );
  const bridge = new Bridge();
  const mappings: Record<string, unknown> = {};
  const page: Record<string, unknown> = {
    ...pageOf(),
    ...{ _richApiNativeBridge: bridge, CustomFunctionMappings: mappings },
  };
  Object.assign(page, { window: page, self: page });
  runInContext(readFileSync(path, "utf8"), createContext(page), { filename: path });
  const { Error } = page.CustomFunctions as Pick<WaitingHost<object>, "Error">;
  return {
    // The script that Excel loads before this one notes what is associated; this one looks it up.
    CustomFunctions: { Error, associate: (id, run) => (mappings[id] = run) },
    call: (...calls) => bridge.call(calls),
  };
}

/** What stands between the script and Excel: messages as texts, both ways. */
class Bridge {
  /** The script puts in here what is to be called with a message of Excel's. */
  onMessageFromHost: (message: string) => void = () => undefined;
  private readonly waiting = new Map<number, (answer: unknown) => void>();
  private last = 0;

  call(calls: [id: string, ...args: unknown[]][]): Promise<unknown[]> {
    const answers: Promise<unknown>[] = [];
    const entries = calls.map(([functionName, ...parameterValues]) => {
      const invocationId = ++this.last;
      answers.push(new Promise((answer) => this.waiting.set(invocationId, answer)));
      const message = { invocationId, functionName, parameterValues, address: "A1", flags: 0 };
      return { messageCategory: 1, messageType: 1000, message };
    });
    this.onMessageFromHost(JSON.stringify({ id: 0, type: 3, flags: 0, message: { entries } }));
    return Promise.all(answers);
  }

  sendMessageToHost(text: string) {
    const { id, message } = JSON.parse(text) as { id: number; message: { body: Orders } };
    const results = message.body.Actions.flatMap(({ Name, ArgumentInfo }) =>
      Name === "SetInvocationArrayResults" ? ArgumentInfo.Arguments[0] : [],
    );
    for (const [invocation, isAnswered, value] of results)
      this.waiting.get(invocation)?.(isAnswered ? value : `failed: ${JSON.stringify(value)}`);
    const done = { statusCode: 200, headers: {}, body: '{"Results":[]}' };
    queueMicrotask(() => this.onMessageFromHost(JSON.stringify({ id, type: 1, message: done })));
  }
}

interface Orders {
  Actions: {
    Name: string;
    ArgumentInfo: { Arguments: [[invocation: number, isAnswered: boolean, value: unknown][]] };
  }[];
}
