/** The one server of this window: started with the first script, again on request, stopped at the end. */
import * as vscode from 'vscode';
import { State } from 'vscode-languageclient/node';
import { type QuietClient, makeClient } from './client.ts';
import { tellGivenUp, tellNotFound, tellNotStarted } from './help.ts';
import { Hints } from './hints.ts';
import { log } from './log.ts';
import { findServer } from './server_command.ts';
import { surroundings, wishes } from './surroundings.ts';

const NO_ANSWER_MS = 60_000;

export class Session implements vscode.Disposable {
  private client: QuietClient | undefined;
  private readonly hints = new Hints();
  private isLooking = false;
  private turn: Promise<void> = Promise.resolve();
  private readonly changed = new vscode.EventEmitter<void>();

  /** After the server has started or stopped. */
  readonly onDidChange = this.changed.event;

  get running(): QuietClient | undefined {
    return this.client?.isRunning() ? this.client : undefined;
  }

  get isStarting(): boolean {
    return this.client === undefined ? this.isLooking : this.client.state === State.Starting;
  }

  /** Stop the server if there is one, and start it; one call after the other. */
  restart(): Promise<void> {
    return this.inTurn(async () => {
      await this.end();
      await this.begin();
    });
  }

  stop(): Promise<void> {
    return this.inTurn(() => this.end());
  }

  dispose(): void {
    void this.stop();
    this.changed.dispose();
    this.hints.dispose();
  }

  private inTurn(work: () => Promise<void>): Promise<void> {
    this.turn = this.turn.then(work, work);
    return this.turn;
  }

  private async begin(): Promise<void> {
    this.isLooking = true;
    const found = findServer(wishes(), await surroundings());
    this.isLooking = false;
    if (!found.isThere) {
      void tellNotFound(found);
      this.changed.fire();
      return;
    }
    let started = false;
    const client = makeClient(found.command, this.hints, {
      hasStarted: () => started,
      onGivingUp: () => void tellGivenUp(found.command),
    });
    this.client = client;
    client.onDidChangeState(() => this.changed.fire());
    const start = client.start().then(() => {
      started = true;
    });
    // whoever wants another server need not wait for one that never answers
    void Promise.race([start, noAnswer()]).catch((reason: unknown) => {
      if (this.client === client) {
        void tellNotStarted(found.command, reason);
      }
    });
  }

  private async end(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    try {
      await client?.dispose();
    } catch (reason) {
      log.info(`While stopping: ${String(reason)}`); // it had never started, or was gone already
    }
  }
}

function noAnswer(): Promise<never> {
  return new Promise((_, reject) => {
    setTimeout(() => reject(new Error('There was no answer within a minute.')), NO_ANSWER_MS);
  });
}
